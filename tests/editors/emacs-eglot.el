;;; emacs-eglot.el --- What emacs.el asks of eglot  -*- lexical-binding: t; -*-

(require 'eglot)

(setq eglot-sync-connect t eglot-connect-timeout 60)

(defconst client-hook 'eglot-ensure)

(defun client-connect ()
  "What `eglot-ensure' does as soon as a command has ended; in batch there are none."
  (apply #'eglot--connect (eglot--guess-contact)))

(defun client-tell ()
  "Send what was changed: in batch nothing is idle, which eglot waits for."
  (eglot--signal-textDocument/didChange))

(defun client-hover (show)
  "Call SHOW with what is known of what stands at point, as eldoc asks for it."
  (eglot-hover-eldoc-function (lambda (text &rest _) (funcall show text))))

(defun client-choose-action () (eglot-code-actions (point) nil nil t))
(defun client-rename (name) (eglot-rename name))
(defun client-format () (eglot-format-buffer))
(defun client-leave () (eglot-shutdown-all))

(defun client-serves-here ()
  "Whether opening the post has made the server the one for this buffer."
  (unless (memq 'tamis-eglot-in-post markdown-mode-hook) (error "The page's init.el does nothing for posts"))
  (local-variable-p 'eglot-server-programs))
;;; emacs-eglot.el ends here
