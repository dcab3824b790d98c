;;; emacs-lsp-mode.el --- What emacs.el asks of lsp-mode  -*- lexical-binding: t; -*-

(require 'lsp-mode)

(defconst client-hook 'lsp-deferred)

(defun client-connect ()
  "What `lsp-deferred' does once the buffer is shown; in batch none is. The folder is what one answers when asked for it."
  (lsp-workspace-folders-add (file-name-directory (buffer-file-name)))
  (lsp)
  (wait-for "a server" (lambda () (and (lsp-workspaces) (bound-and-true-p lsp-managed-mode)))))

(defun client-tell () "What is changed is sent by itself.")

(defun client-hover (show)
  "Call SHOW with what is known of what stands at point."
  (lsp-request-async "textDocument/hover" (lsp--text-document-position-params)
                     (lambda (hover) (funcall show (and hover (lsp--render-on-hover-content (lsp:hover-contents hover) t))))))

(defun client-choose-action () (call-interactively #'lsp-execute-code-action))
(defun client-rename (name) (lsp-rename name))
(defun client-format () (lsp-format-buffer))
(defun client-leave () (let ((lsp-restart 'ignore)) (lsp-workspace-shutdown (car (lsp-workspaces)))))

(defun client-serves-here ()
  "Whether the server is the one for this buffer."
  (cl-some (lambda (client) (eq (lsp--client-server-id client) 'tamis)) (lsp--filter-clients #'lsp--matching-clients?)))
;;; emacs-lsp-mode.el ends here
