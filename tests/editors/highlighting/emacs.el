;;; emacs.el --- What Emacs takes manuscripts for  -*- lexical-binding: t; -*-

;; Writes, for each of the files named in $FILES, its runs (face line from to) as JSON, with columns in UTF-16 units, to $OUT.

(require 'tamis-mode)
(require 'json)

(defun runs-of (file)
  (with-temp-buffer
    (let ((coding-system-for-read 'utf-8)) (insert-file-contents file))
    (tamis-mode)
    (font-lock-ensure)
    (let (runs (line 0))
      (goto-char (point-min))
      (while (not (eobp))
        (let ((column 0) (last nil) (from 0))
          (while (not (eolp))
            (let* ((face (get-text-property (point) 'face))
                   (face (if (consp face) (car face) face)))
              (unless (eq face last)
                (when last (push (list (symbol-name last) line from column) runs))
                (setq last face from column))
              (setq column (+ column (if (> (char-after) #xffff) 2 1))))
            (forward-char))
          (when last (push (list (symbol-name last) line from column) runs)))
        (setq line (1+ line))
        (forward-line))
      (vconcat (mapcar #'vconcat (nreverse runs))))))

(let ((all (mapcar (lambda (file) (cons file (runs-of file))) (split-string (getenv "FILES") "\n" t)))
      (coding-system-for-write 'utf-8))
  (with-temp-file (getenv "OUT") (insert (json-encode all))))
