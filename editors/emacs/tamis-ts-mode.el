;;; tamis-ts-mode.el --- Recipe manuscripts, coloured by their parser  -*- lexical-binding: t; -*-

;; Version: 0.1.0
;; Package-Requires: ((emacs "29.1"))
;; Keywords: languages, text, wp

;;; Commentary:

;; What `tamis-mode' does, with the colours of the grammar, for an Emacs that was built with tree-sitter and finds the parser
;; (`libtree-sitter-tamis').  README.md tells how to set it up.

;;; Code:

(require 'tamis-mode)
(require 'treesit)

(defconst tamis-ts--query "
(title_line label: (label) @tamis-recipe)
(title) @tamis-title
(header label: (label) @tamis-header)
(equipment_section heading: (label) @tamis-section)
(ingredients_section heading: (label) @tamis-section)
(method_section heading: (label) @tamis-section)
(tests_section heading: (label) @tamis-section)
(prose_section heading: (label) @tamis-section)
(group_name) @tamis-group
(hedge) @tamis-hedge
[(number) (range)] @tamis-number
(unit) @tamis-unit
(step_number) @tamis-step
(result_name) @tamis-result
(mention_name) @tamis-mention
(reference_title) @tamis-reference
(comment) @tamis-comment
(query) @tamis-query
(stet \"stet\" @tamis-stet)
(check_code) @tamis-check
(reason) @tamis-reason
(escape) @tamis-escape
"
  "What the nodes of the grammar look like.")

;;;###autoload
(define-derived-mode tamis-ts-mode tamis-mode "Recipe"
  "Recipe manuscripts, coloured by the parser where it is found."
  (when (treesit-ready-p 'tamis)
    (treesit-parser-create 'tamis)
    (setq-local treesit-font-lock-settings
                (treesit-font-lock-rules :language 'tamis :feature 'manuscript tamis-ts--query))
    (setq-local treesit-font-lock-feature-list '((manuscript)))
    (treesit-major-mode-setup)))

(provide 'tamis-ts-mode)
;;; tamis-ts-mode.el ends here
