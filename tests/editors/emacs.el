;;; emacs.el --- What an author meets in Emacs  -*- lexical-binding: t; -*-

;; With the mode as its page installs it, and one of the clients for the server, whose calls emacs-CLIENT.el has.  Run by emacs.sh, which
;; names the sample in $SAMPLE.

(require 'cl-lib)
(require 'flymake)
(load (expand-file-name "~/.emacs.d/init.el") nil t)

(setq make-backup-files nil auto-save-default nil)

(defconst patience 60 "Seconds; nothing waits for them unless it fails.")

(defun say (&rest arguments) (princ (concat (apply #'format arguments) "\n")))

(defun wait-for (what holds)
  "Wait until HOLDS, called at short intervals, is true of WHAT; give what it returned."
  (let ((end (time-add nil patience)) value)
    (while (not (setq value (funcall holds)))
      (when (time-less-p end nil)
        (error "%s does not come; diagnostics: %S; text:\n%s" what (mapcar #'flymake-diagnostic-text (flymake-diagnostics)) (buffer-string)))
      (accept-process-output nil 0.02))
    value))

(defun unused (name)
  "The findings that NAME goes into no step."
  (cl-remove-if-not (lambda (each) (string-match-p (concat "No step uses the " name) (flymake-diagnostic-text each))) (flymake-diagnostics)))

(defun type-over (words others)
  "Put OTHERS in the place of WORDS, and tell the server."
  (goto-char (point-min))
  (search-forward words)
  (replace-match others t t)
  (client-tell))

(defun go-to (words)
  (goto-char (point-min))
  (search-forward words)
  (goto-char (match-beginning 0)))

(find-file (getenv "SAMPLE"))
(unless (eq major-mode 'tamis-mode) (error "The file is opened in %s" major-mode))
(unless (memq client-hook tamis-mode-hook) (error "The page's init.el does not start the server"))
(client-connect)
(flymake-start)

;; Findings: as it is opened, as one types, and as it is taken back.
(let ((walnuts (car (wait-for "the finding" (lambda () (unused "walnuts"))))))
  (say "finding, line %d: %s" (line-number-at-pos (flymake-diagnostic-beg walnuts)) (flymake-diagnostic-text walnuts)))
(type-over " and the raisins." ".")
(say "typed: %s" (flymake-diagnostic-text (car (wait-for "the finding of what was typed" (lambda () (unused "raisins"))))))
(type-over "then the carrots." "then the carrots and the raisins.")
(wait-for "the end of that finding" (lambda () (and (unused "walnuts") (not (unused "raisins")))))

;; Hover.
(go-to "2 cups (220 g)")
(let (shown)
  (client-hover (lambda (text) (setq shown text)))
  (wait-for "the hover" (lambda () shown))
  (unless (string-match-p "220 g" shown) (error "The hover says: %s" shown))
  (say "hover: %s" (replace-regexp-in-string "\n+" " | " (substring-no-properties shown))))

;; Completion of a word in a step.
(type-over "then the carrots" "then the wal")
(search-backward "wal")
(goto-char (match-end 0))
(let* ((capf (run-hook-wrapped 'completion-at-point-functions (lambda (each) (and (functionp each) (let ((found (funcall each))) (and (consp found) found))))))
       (words (all-completions (buffer-substring-no-properties (nth 0 capf) (nth 1 capf)) (nth 2 capf))))
  (unless (member "walnuts" words) (error "Walnuts are not among what completes: %S" words))
  (say "completion: %s" (mapconcat #'substring-no-properties words ", ")))
(type-over "then the wal" "then the carrots")

;; A fix, chosen by its title.
(wait-for "the finding" (lambda () (unused "walnuts")))
(go-to "walnuts")
(setq last-nonmenu-event t) ; asked by the keyboard: the choice is made by name, and not in a menu of the mouse
(cl-letf (((symbol-function 'completing-read)
           (lambda (_ choices &rest _)
             (let ((titles (all-completions "" choices)))
               (say "offered: %s" (mapconcat #'identity titles "; "))
               (or (car (member "Name the walnuts in step 4" titles)) (error "The fix is not offered"))))))
  (client-choose-action))
(client-tell)
(wait-for "the end of the finding" (lambda () (not (unused "walnuts"))))
(go-to "4. Fold")
(say "fixed: %s" (buffer-substring (line-beginning-position) (line-end-position)))

;; Another name, in both places.
(go-to "dry mix")
(client-rename "flour mix")
(dolist (words '("=> flour mix" "Fold in the flour mix")) (go-to words))
(say "rename: %s" (buffer-substring (line-beginning-position) (line-end-position)))

;; The next step, without the server.
(goto-char (point-max))
(skip-chars-backward "\n")
(tamis-next-item)
(unless (looking-back "\n\n7. " (line-beginning-position -1)) (error "M-RET does not start step 7"))
(tamis-next-item)

;; The layout: spaces, and the numbers of the steps.
(type-over "- 1/2 cup (75 g) raisins" "-  1/2   cup (75 g) raisins")
(type-over "5. Scrape" "9. Scrape")
(client-format)
(dolist (words '("\n- 1/2 cup (75 g) raisins\n" "\n5. Scrape")) (go-to words))
(say "laid out: %s" (buffer-substring (1+ (point)) (line-end-position 2)))

(let ((inhibit-message t)) (save-buffer))

;; A post in Markdown, by what its fence holds; other Markdown is left alone.
(find-file (getenv "OTHER"))
(when (client-serves-here) (error "Other Markdown is served, too"))
(find-file (getenv "POST"))
(unless (client-serves-here) (error "The post is not served"))
(client-connect)
(flymake-start)
(let ((plums (car (wait-for "the finding in a post" (lambda () (unused "plums"))))))
  (say "post, line %d: %s" (line-number-at-pos (flymake-diagnostic-beg plums)) (flymake-diagnostic-text plums)))
(client-leave)
;;; emacs.el ends here
