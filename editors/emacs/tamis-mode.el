;;; tamis-mode.el --- Recipe manuscripts  -*- lexical-binding: t; -*-

;; Version: 0.1.0
;; Package-Requires: ((emacs "27.1"))
;; Keywords: languages, text, wp

;;; Commentary:

;; Colours, lists that go on with M-RET, imenu and outline for recipe manuscripts (`.tamis'); and the language server, by eglot or
;; lsp-mode, whichever is used.  README.md tells how to set it up.

;;; Code:

(require 'rx)

(defgroup tamis nil
  "Recipe manuscripts."
  :group 'text)

(defcustom tamis-server-command '("tamis" "lsp")
  "The program that checks manuscripts, and its arguments."
  :type '(repeat string))

;;;; Faces

(defface tamis-recipe '((t :inherit font-lock-keyword-face)) "The label of a recipe.")
(defface tamis-title '((t :inherit font-lock-function-name-face :weight bold)) "The title of a recipe.")
(defface tamis-header '((t :inherit font-lock-variable-name-face)) "The label of a header.")
(defface tamis-section '((t :inherit font-lock-keyword-face :weight bold)) "The heading of a section.")
(defface tamis-group '((t :inherit font-lock-type-face :slant italic)) "The heading of a group.")
(defface tamis-number '((t :inherit font-lock-constant-face)) "The number of a measure.")
(defface tamis-unit '((t :inherit font-lock-type-face)) "The unit of a measure.")
(defface tamis-hedge '((t :inherit font-lock-builtin-face)) "A word that loosens a measure.")
(defface tamis-mention '((t :inherit font-lock-variable-name-face)) "A marked mention.")
(defface tamis-reference '((t :inherit link)) "The title of another recipe.")
(defface tamis-step '((t :inherit font-lock-builtin-face)) "The number of a step, or a bullet.")
(defface tamis-result '((t :inherit font-lock-constant-face)) "The name of what a step has made.")
(defface tamis-comment '((t :inherit font-lock-comment-face)) "A remark.")
(defface tamis-query '((t :inherit font-lock-warning-face)) "An open question.")
(defface tamis-stet '((t :inherit font-lock-preprocessor-face)) "The word that lets something stand.")
(defface tamis-check '((t :inherit font-lock-constant-face)) "The check that is silenced.")
(defface tamis-reason '((t :inherit font-lock-comment-face)) "Why it is silenced.")
(defface tamis-escape '((t :inherit font-lock-string-face)) "A mark that is meant as text.")

;;;; Words

(eval-and-compile
  ;; BEGIN words, made by editors/generate.mjs
  (defconst tamis--words-title '("recipe"))
  (defconst tamis--words-header '("allergens" "keywords" "cuisine" "author" "course" "serves" "status" "photo" "yield" "diet" "time"))
  (defconst tamis--words-lists '("ingredients" "equipment" "tests"))
  (defconst tamis--words-method '("instructions" "preparation" "directions" "method" "steps"))
  (defconst tamis--words-prose '("variations" "sidebar" "storage" "notes"))
  (defconst tamis--words-unit '("degrees centigrade" "degrees fahrenheit" "degree fahrenheit" "degrees celsius" "degree celsius" "tablespoonfuls" "dessertspoons" "tablespoonful" "dessertspoon" "fluid ounces" "teaspoonfuls" "centiliters" "centilitres" "centimeters" "centimetres" "fluid ounce" "kilogrammes" "milliliters" "millilitres" "millimeters" "millimetres" "tablespoons" "teaspoonful" "centigrade" "centiliter" "centilitre" "centimeter" "centimetre" "deciliters" "decilitres" "fahrenheit" "kilogramme" "milligrams" "milliliter" "millilitre" "millimeter" "millimetre" "sprinkling" "tablespoon" "deciliter" "decilitre" "degrees c" "degrees f" "envelopes" "grindings" "kilograms" "milligram" "spoonfuls" "teaspoons" "drizzles" "envelope" "gratings" "grinding" "handfuls" "handsful" "kilogram" "packages" "portions" "servings" "smidgens" "splashes" "spoonful" "sprinkle" "squeezes" "teaspoon" "batches" "bottles" "bunches" "cartons" "celsius" "cupfuls" "degrees" "dollops" "drizzle" "fillets" "gallons" "glasses" "grammes" "grating" "handful" "jiggers" "minutes" "package" "packets" "pinches" "portion" "punnets" "rashers" "recipes" "sachets" "seconds" "serving" "smidgen" "squeeze" "squirts" "blocks" "bottle" "carton" "chunks" "cloves" "cupful" "dashes" "degree" "dollop" "dstspn" "fillet" "fl ozs" "fl. oz" "gallon" "gramme" "grinds" "inches" "jigger" "leaves" "liters" "litres" "loaves" "meters" "metres" "minute" "months" "ounces" "packet" "pieces" "pounds" "punnet" "quarts" "rasher" "recipe" "rounds" "sachet" "scoops" "second" "sheets" "slices" "splash" "sprigs" "squirt" "stalks" "sticks" "strips" "thumbs" "wedges" "balls" "batch" "blobs" "block" "bowls" "boxes" "bulbs" "bunch" "chunk" "clove" "cubes" "deg c" "deg f" "dozen" "drops" "fl oz" "gills" "glass" "glugs" "grams" "grind" "heads" "hours" "kilos" "knobs" "liter" "litre" "meter" "metre" "month" "ounce" "packs" "piece" "pinch" "pints" "pound" "quart" "round" "scoop" "sheet" "slice" "sprig" "stalk" "stick" "strip" "tblsp" "tbsps" "thumb" "tubes" "wedge" "weeks" "bags" "ball" "bars" "blob" "bowl" "bulb" "cans" "cube" "cups" "dash" "days" "drop" "ears" "feet" "floz" "foot" "gill" "glug" "gram" "head" "hour" "inch" "jars" "kilo" "knob" "leaf" "loaf" "mins" "mugs" "pack" "pats" "pint" "pkgs" "ribs" "secs" "tbsp" "tins" "tsps" "tube" "tubs" "week" "bag" "bar" "box" "can" "cms" "cup" "day" "deg" "doz" "dsp" "ear" "gal" "gms" "hrs" "jar" "kgs" "lbs" "ltr" "min" "mug" "ozs" "pat" "pkg" "pts" "qts" "rib" "sec" "tad" "tbl" "tbs" "tin" "tsp" "tub" "º c" "º f" "cc" "cl" "cm" "dl" "ft" "gm" "gr" "hr" "kg" "lb" "lt" "mg" "ml" "mm" "oz" "pt" "qt" "ºc" "ºf" "g" "h" "l" "º"))
  (defconst tamis--words-behind '("tablespoonfuls" "dessertspoons" "tablespoonful" "dessertspoon" "fluid ounces" "teaspoonfuls" "centiliters" "centilitres" "centimeters" "centimetres" "fluid ounce" "kilogrammes" "milliliters" "millilitres" "millimeters" "millimetres" "tablespoons" "teaspoonful" "centiliter" "centilitre" "centimeter" "centimetre" "deciliters" "decilitres" "kilogramme" "milligrams" "milliliter" "millilitre" "millimeter" "millimetre" "sprinkling" "tablespoon" "deciliter" "decilitre" "envelopes" "grindings" "kilograms" "milligram" "spoonfuls" "teaspoons" "drizzles" "envelope" "gratings" "grinding" "handfuls" "handsful" "kilogram" "packages" "smidgens" "splashes" "spoonful" "sprinkle" "squeezes" "teaspoon" "batches" "bottles" "bunches" "cartons" "cupfuls" "dollops" "drizzle" "fillets" "gallons" "grammes" "grating" "handful" "jiggers" "minutes" "package" "packets" "pinches" "punnets" "rashers" "recipes" "sachets" "seconds" "smidgen" "squeeze" "squirts" "bottle" "carton" "cloves" "cupful" "dashes" "dollop" "dstspn" "fillet" "fl ozs" "fl. oz" "gallon" "gramme" "grinds" "inches" "jigger" "leaves" "liters" "litres" "meters" "metres" "minute" "months" "ounces" "packet" "pounds" "punnet" "quarts" "rasher" "recipe" "sachet" "scoops" "second" "slices" "splash" "sprigs" "squirt" "stalks" "sticks" "strips" "thumbs" "batch" "blobs" "bunch" "clove" "dozen" "drops" "fl oz" "gills" "glugs" "grams" "grind" "heads" "hours" "kilos" "knobs" "liter" "litre" "meter" "metre" "month" "ounce" "packs" "pinch" "pints" "pound" "quart" "scoop" "slice" "sprig" "stalk" "stick" "strip" "tblsp" "tbsps" "thumb" "weeks" "blob" "cans" "cups" "dash" "days" "drop" "feet" "floz" "foot" "gill" "glug" "gram" "head" "hour" "inch" "jars" "kilo" "knob" "leaf" "mins" "mugs" "pack" "pats" "pint" "pkgs" "ribs" "secs" "tbsp" "tins" "tsps" "week" "can" "cms" "cup" "day" "doz" "dsp" "gal" "gms" "hrs" "jar" "kgs" "lbs" "ltr" "min" "mug" "ozs" "pat" "pkg" "pts" "qts" "rib" "sec" "tad" "tbl" "tbs" "tin" "tsp" "cc" "cl" "cm" "dl" "ft" "gm" "gr" "hr" "kg" "lb" "lt" "mg" "ml" "mm" "oz" "pt" "qt" "g" "h" "l"))
  (defconst tamis--words-cased '("C" "F" "T" "c" "m" "s" "t"))
  (defconst tamis--words-signs '("\"" "″" "℃"))
  (defconst tamis--words-number '("seventeen" "eighteen" "fourteen" "nineteen" "thirteen" "fifteen" "quarter" "seventy" "sixteen" "couple" "eighty" "eleven" "ninety" "thirty" "twelve" "twenty" "eight" "fifty" "forty" "seven" "sixty" "third" "three" "five" "four" "half" "nine" "one" "six" "ten" "two" "an" "a"))
  (defconst tamis--words-hedge '("approximately" "generous" "exactly" "heaping" "roughly" "rounded" "almost" "approx" "around" "heaped" "nearly" "about" "level" "scant" "good"))
  (defconst tamis--words-size '("approximately" "generous" "standard" "exactly" "heaping" "roughly" "rounded" "almost" "approx" "around" "heaped" "medium" "nearly" "about" "large" "level" "scant" "small" "thick" "full" "good" "tall" "thin" "big" "fat"))
  (defconst tamis--words-between '("approximately" "generous" "standard" "degrees" "drained" "exactly" "heaping" "roughly" "rounded" "almost" "approx" "around" "heaped" "medium" "nearly" "about" "fluid" "large" "level" "scant" "small" "thick" "total" "each" "full" "good" "mark" "plus" "tall" "thin" "all" "and" "big" "fan" "fat" "gas" "net" "by" "fl" "in" "of" "or" "to" "x"))
  (defconst tamis--words-ofsize '("thickness" "diameter" "lengths" "skillet" "across" "chunks" "cutter" "length" "pieces" "rounds" "slices" "square" "strips" "apart" "chunk" "cubes" "piece" "round" "slice" "strip" "thick" "width" "cake" "cube" "deep" "dice" "dish" "high" "loaf" "long" "ring" "tall" "wide" "pan" "tin"))
  ;; END words

  (defun tamis--any (words)
    "A regular expression for one of WORDS, of which blanks may be wider."
    (replace-regexp-in-string " " "[ \t]+" (regexp-opt words) t t)))

(defconst tamis--gap "[ \t\u00a0\u2009\u202f]")
(defconst tamis--fraction "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒")

(defconst tamis--range
  (let* ((g tamis--gap)
         (f tamis--fraction)
         (figure (concat "\\(?:[0-9]+\\(?:" g "+\\|-\\|" g "+\\(?:and\\|&\\)" g "+\\)[0-9]+[/⁄][0-9]+"
                         "\\|[0-9]+\\(?:" g "*\\|-\\|" g "+and" g "+\\)[" f "]"
                         "\\|[0-9]+[/⁄][0-9]+"
                         "\\|[0-9]\\{1,3\\}\\(?:,[0-9]\\{3\\}\\)+\\(?:[.,][0-9]+\\)*\\|[0-9]+\\(?:[.,][0-9]+\\)*\\|[.][0-9]+\\|[" f "]\\)")))
    (concat figure "\\(?:\\(?:-?" g "*[-‐‑‒–—]" g "*\\|-?" g "+\\(?:to\\|or\\)" g "+\\)" figure "\\)?"))
  "A number, or two with a dash or a word between them.")

(defconst tamis--unit
  (concat "\\(?:[-‐‑]?\\(?:" (tamis--any tamis--words-unit) "\\|" (regexp-opt tamis--words-cased) "\\)\\>"
          "\\|[°º˚]\\(?:[ \t]*[fc]\\>\\)?\\|" (regexp-opt tamis--words-signs)
          "\\|[-‐‑]in\\>\\)")
  "A unit, with the hyphen before it.")

(defconst tamis--inches
  (concat "\\(in\\)\\>\\.?" tamis--gap "*\\(?:$\\|[().,;:/x×]\\|\\]\\|" (tamis--any tamis--words-ofsize) "\\>\\)")
  "The word \"in\" where it is a unit.")

(defconst tamis--spelled
  (let ((g tamis--gap) (number (tamis--any tamis--words-number)))
    (concat number "\\(?:\\(?:-\\|" g "+\\)\\(?:of\\|" number "\\)\\>\\)*"
            "\\(?:" g "+\\(?:to\\|or\\|and\\)" g "+" number "\\(?:" g "+\\(?:an?\\|of\\)\\)*\\)?"))
  "A number in words.")

(defconst tamis--behind-spelled
  (concat "\\(?:-\\|" tamis--gap "+\\)\\(?:\\(" (tamis--any tamis--words-hedge) "\\)" tamis--gap "+\\|" (tamis--any tamis--words-size) tamis--gap "+\\)?"
          "\\(" (tamis--any tamis--words-behind) "\\)\\>")
  "The unit behind a number in words.")

;; What is looked for behind a number or a word is made once, and not at every number.
(defconst tamis--unit-behind (concat tamis--gap "*\\(" tamis--unit "\\)"))
(defconst tamis--inches-behind (concat tamis--gap "+" tamis--inches))
(defconst tamis--size-and-unit-behind
  (concat tamis--gap "+\\(?:\\(" (tamis--any tamis--words-hedge) "\\)\\|" (tamis--any tamis--words-size) "\\)" tamis--gap "+\\(" (tamis--any tamis--words-unit) "\\)\\>"))
(defconst tamis--open-range-behind (concat tamis--gap "+\\(?:to\\|or\\)" tamis--gap "*$"))
(defconst tamis--pack-unit (concat tamis--range tamis--gap "*([0-9." tamis--fraction "][^()\n]*)" tamis--unit-behind))
(defconst tamis--spelled-measure (concat "\\(" tamis--spelled "\\)" tamis--behind-spelled))
(defconst tamis--hedge-before
  (concat "\\(\\(?:" (tamis--any tamis--words-hedge) "\\|up" tamis--gap "+to\\|at" tamis--gap "+\\(?:least\\|most\\)\\)\\)\\>"
          tamis--gap "+\\(?:[0-9." tamis--fraction "]\\|" tamis--spelled tamis--behind-spelled "\\)"))
(defconst tamis--gas-mark (concat "\\(gas\\(?:" tamis--gap "+mark\\)?\\)" tamis--gap "+[0-9" tamis--fraction "]"))
(defconst tamis--no-measure
  "[0-9]\\{4\\}-[0-9][0-9]-[0-9][0-9]\\|[0-9]\\{1,2\\}:[0-9][0-9]\\|[0-9]*\\(?:1st\\|2nd\\|3rd\\|[04-9]th\\|1[1-3]th\\)"
  "A day, an hour or an order.")

;;;; Lines

(defconst tamis--heading-end
  "\\(?:[ \t]+\\([^].!?;[=\"()\n]\\{1,80\\}?\\)\\|[ \t]*(\\([^].!?;[=\"()\n]\\{1,80\\}\\))\\)?[ \t]*:[ \t]*\\(?:$\\|//\\|[?][?]\\)"
  "What follows the label of a list.")

(defconst tamis--title (concat "^\ufeff?\\(" (regexp-opt tamis--words-title) "\\):"))
(defconst tamis--header (concat "^\\(" (regexp-opt tamis--words-header) "\\):"))
(defconst tamis--list (concat "^\\(" (regexp-opt tamis--words-lists) "\\)" tamis--heading-end))
(defconst tamis--method (concat "^\\(" (regexp-opt tamis--words-method) "\\)" tamis--heading-end))
(defconst tamis--prose (concat "^\\(" (regexp-opt tamis--words-prose) "\\|make[- ][ \t]*ahead\\):"))
(defconst tamis--any-section (mapconcat #'identity (list tamis--title tamis--list tamis--method tamis--prose) "\\|"))
(defconst tamis--number-of-step "[ \t]*\\(?:step[ \t]+\\)?[0-9]\\{1,3\\}[ \t]*[.):]")
(defconst tamis--bullet "[-*•·–—▪●○☐◦■□]")
(defconst tamis--remark "[ \t]*\\(?://\\|[?][?]\\|stet[ \t]\\)")

(defun tamis--section ()
  "The section that point is in: `list', `method', `prose' or nil."
  (save-excursion
    (save-match-data
      (let ((case-fold-search t))
        (forward-line 0)
        (and (or (looking-at tamis--any-section) (re-search-backward tamis--any-section nil t))
             (cond ((looking-at tamis--list) 'list)
                   ((looking-at tamis--method) 'method)
                   ((looking-at tamis--prose) 'prose)))))))

(defun tamis--above-sections-p ()
  "Whether the line at point may be a header.
That is so above the sections, and not inside a paragraph."
  (save-excursion
    (save-match-data
      (let ((case-fold-search t) (clear (if (tamis--section) nil 'unknown)))
        (forward-line 0)
        (while (eq clear 'unknown)
          (cond ((or (bobp) (progn (forward-line -1) (looking-at "[ \t]*$"))) (setq clear t))
                ((looking-at (concat tamis--title "\\|" tamis--header "\\|" tamis--remark)))
                (t (setq clear nil))))
        clear))))

;;;; Finding what is coloured

(defun tamis--search (pattern limit fits)
  "Search for PATTERN up to LIMIT, in any case, until FITS holds of what was found."
  (let ((case-fold-search t) found)
    (while (and (not found) (re-search-forward pattern limit t))
      (if (= (match-beginning 0) (match-end 0))
          (if (< (point) limit) (forward-char) (setq found 'none))
        (setq found (funcall fits))))
    (eq found t)))

(defun tamis--starts-p ()
  "Whether no word runs on into what was found."
  (let ((before (char-before (match-beginning 0))))
    (not (and before (or (memq before '(?' ?’)) (memq (get-char-code-property before 'general-category) '(Lu Ll Lt Lm Lo Nd)))))))

(defun tamis--no-measure-p ()
  "Whether the number found is one of a day, an hour or an order."
  (save-excursion
    (goto-char (match-beginning 0))
    (save-match-data (looking-at tamis--no-measure))))

(defun tamis--match-day (limit)
  "A day, an hour or an order up to LIMIT, which is no measure."
  (tamis--search tamis--no-measure limit (lambda () (tamis--starts-p))))

(defun tamis--match-measure (limit)
  "A number up to LIMIT, as group 1.
The hedge and the unit behind it are groups 2 and 3."
  (tamis--search
   tamis--range limit
   (lambda ()
     (let ((from (match-beginning 0)) (to (match-end 0)) hedge unit)
       (when (and (tamis--starts-p) (not (tamis--no-measure-p)))
         (goto-char to)
         (cond
          ((looking-at tamis--unit-behind) (setq unit (cons (match-beginning 1) (match-end 1))))
          ((looking-at tamis--inches-behind) (setq unit (cons (match-beginning 1) (match-end 1))))
          ((looking-at tamis--size-and-unit-behind)
           (setq hedge (and (match-beginning 1) (cons (match-beginning 1) (match-end 1))) unit (cons (match-beginning 2) (match-end 2))))
          ((looking-at tamis--open-range-behind) (setq to (match-end 0))))
         (goto-char (max to (or (cdr unit) to)))
         (set-match-data (list from (point) from to (car hedge) (cdr hedge) (car unit) (cdr unit)))
         t)))))

(defun tamis--match-pack-unit (limit)
  "The unit behind a number and a pack, up to LIMIT, as group 1.
Such as in 2 (14-oz / 400 g) cans."
  (tamis--search tamis--pack-unit limit (lambda () (tamis--starts-p))))

(defun tamis--match-spelled (limit)
  "A number in words up to LIMIT, as group 1.
The hedge and the unit behind it are groups 2 and 3."
  (tamis--search
   tamis--spelled-measure limit
   (lambda ()
     (and (tamis--starts-p) (not (equal (downcase (match-string 3)) "second"))))))

(defun tamis--match-hedge (limit)
  "A word before a measure, up to LIMIT, as group 1."
  (tamis--search tamis--hedge-before limit (lambda () (prog1 (tamis--starts-p) (goto-char (match-end 1))))))

(defun tamis--match-header (limit)
  "The label of a header up to LIMIT."
  (tamis--search tamis--header limit (lambda () (save-excursion (goto-char (match-beginning 0)) (tamis--above-sections-p)))))

(defun tamis--match-group (limit)
  "A group's name up to LIMIT, as group 1."
  (tamis--search
   "^\\(?:\\([[:alpha:]][^].!?;[=\":\n]\\{0,88\\}\\):[ \t]*\\(?:$\\|//\\|[?][?]\\)\\|\\(?1:\\(?:for\\|to\\)\\(?:[ \t]+[^] \t\n0-9.,:;!?()/[=\"]+\\)\\{1,5\\}\\)[ \t]*$\\)"
   limit (lambda ()
           (save-excursion
             (goto-char (match-beginning 0))
             (and (tamis--section) (save-match-data (not (looking-at tamis--any-section))))))))

(defun tamis--match-step (limit)
  "The number of a step, or a bullet, up to LIMIT."
  (tamis--search (concat "^\\(?:" tamis--number-of-step "\\|" tamis--bullet "\\)\\(?:[ \t]\\|$\\)") limit
                 (lambda ()
                   (save-excursion
                     (goto-char (match-beginning 0))
                     (let ((section (tamis--section)))
                       (or (eq section 'method)
                           (and (eq section 'list) (save-match-data (looking-at tamis--bullet)))))))))

(defun tamis--match-result (limit)
  "What a step has made, up to LIMIT: all behind the arrow, as group 1."
  (tamis--search "=>\\(.*?\\)\\(?:[ \t]\\(?://\\|[?][?]\\)\\|$\\)" limit
                 (lambda () (and (eq (tamis--section) 'method) (progn (goto-char (match-end 1)) t)))))

(defun tamis--match-mention (limit)
  "A mention up to LIMIT, as group 1; it may go on in an indented line.
One that holds amounts only is none."
  (tamis--search "\\[\\([^][\n]*\\(?:\n[ \t]+[^][ \t\n][^][\n]*\\)*\\)\\]" limit
                 (lambda () (not (tamis--amounts-p (match-string-no-properties 1))))))

(defun tamis--amounts-p (text)
  "Whether TEXT is amounts only."
  (save-match-data
    (let ((case-fold-search t)
          (words (append tamis--words-between tamis--words-unit '("f" "c"))))
      (and (string-match-p (concat "[0-9" tamis--fraction "]") text)
           (not (seq-some (lambda (word) (not (member word words))) (split-string (downcase text) "[^[:alpha:]]+" t)))))))

(defconst tamis-font-lock-keywords
  `(("\\(?:^\\|[ \t]\\)\\(//.*\\)$" 1 'tamis-comment)
    ("\\(?:^\\|[ \t]\\)\\([?][?].*\\)$" 1 'tamis-query)
    ("\\[[ \t]*\\(?:[aA][uU]\\|[eE][dD]\\):[^]\n]*\\]?" 0 'tamis-query)
    ("\\<TK\\>" 0 'tamis-query)
    ("^[ \t]*\\([Ss][Tt][Ee][Tt]\\)[ \t]+\\([[:alpha:]][^ \t\n:]*\\)\\(?::\\(.*\\)\\)?" (1 'tamis-stet) (2 'tamis-check) (3 'tamis-reason keep t))
    ("\\\\[][=/?\\]" 0 'tamis-escape)
    ("\\[\\[\\([^]\n]*\\)\\]\\]?" 1 'tamis-reference)
    (,(lambda (limit) (tamis--search (concat tamis--title "\\(.*\\)$") limit (lambda () t))) (1 'tamis-recipe) (2 'tamis-title keep))
    (tamis--match-header 1 'tamis-header)
    (,(lambda (limit) (tamis--search (concat tamis--list "\\|" tamis--method) limit (lambda () t)))
     (1 'tamis-section nil t) (2 'tamis-group nil t) (3 'tamis-group nil t) (4 'tamis-section nil t) (5 'tamis-group nil t) (6 'tamis-group nil t))
    (,(lambda (limit) (tamis--search tamis--prose limit (lambda () t))) 1 'tamis-section)
    (tamis--match-group 1 'tamis-group)
    (tamis--match-step 0 'tamis-step)
    ("[[:alpha:]]+://[^] \t\n[)]*" 0 'default)
    (tamis--match-day 0 'default)
    (tamis--match-hedge 1 'tamis-hedge)
    (tamis--match-measure (1 'tamis-number) (2 'tamis-hedge nil t) (3 'tamis-unit nil t))
    (tamis--match-pack-unit 1 'tamis-unit)
    (tamis--match-spelled (1 'tamis-number) (2 'tamis-hedge nil t) (3 'tamis-unit))
    (,(lambda (limit) (tamis--search tamis--gas-mark limit (lambda () (tamis--starts-p)))) 1 'tamis-unit)
    (tamis--match-mention 1 'tamis-mention keep)
    (tamis--match-result 1 'tamis-result keep))
  "What is coloured in manuscripts.")

;;;; Typing

(defun tamis-next-item ()
  "Start the next item or step; in an empty one, end the list."
  (interactive "*")
  (let* ((case-fold-search t)
         (line (buffer-substring-no-properties (line-beginning-position) (line-end-position)))
         (mark (and (string-match "\\`[ \t]*\\(?:\\([-*•·–]\\)\\|\\(step[ \t]+\\)?\\([0-9]+\\)\\([.):]\\)\\)[ \t]*" line) (match-string 0 line))))
    (cond
     ((null mark) (newline))
     ((= (length mark) (length line)) (delete-region (line-beginning-position) (line-end-position)))
     (t
      (let ((next (if (match-string 1 line)
                      (concat (match-string 1 line) " ")
                    (concat (match-string 2 line) (number-to-string (1+ (string-to-number (match-string 3 line)))) (match-string 4 line) " ")))
            (loose (and (match-string 3 line) (save-excursion (forward-line -1) (looking-at-p "[ \t]*$")))))
        (delete-horizontal-space)
        (insert (if loose "\n\n" "\n") next))))))

(defvar tamis-mode-map
  (let ((map (make-sparse-keymap)))
    (define-key map (kbd "M-RET") #'tamis-next-item)
    map)
  "Keys of manuscripts.")

(defvar tamis-mode-syntax-table
  (let ((table (make-syntax-table text-mode-syntax-table)))
    (modify-syntax-entry ?’ "w p" table)
    (modify-syntax-entry ?\" "." table)
    table)
  "Characters of manuscripts.")

;;;###autoload
(define-derived-mode tamis-mode text-mode "Recipe"
  "Recipe manuscripts, checked by the language server of Tamis."
  (setq-local font-lock-defaults '(tamis-font-lock-keywords t))
  (setq-local font-lock-multiline t)
  (setq-local comment-start "// ")
  (setq-local comment-end "")
  (setq-local comment-start-skip "//[ \t]*")
  (setq-local outline-regexp "Recipe:")
  (setq-local imenu-generic-expression `((nil ,(concat tamis--title "[ \t]*\\(.+\\)$") 2)))
  (setq-local imenu-case-fold-search t)
  (setq-local adaptive-fill-regexp "[ \t]*")
  (setq-local paragraph-start (concat "[ \t\f]*$\\|" tamis--number-of-step "[ \t]\\|" tamis--bullet "[ \t]"))
  (setq-local indent-tabs-mode nil)
  (setq-local tab-width 2)
  (visual-line-mode 1))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.tamis\\'" . tamis-mode))

;;;; The language server

(defvar eglot-server-programs)
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs `((tamis-mode tamis-ts-mode) . ,(lambda (&rest _) tamis-server-command))))

(declare-function lsp-register-client "ext:lsp-mode")
(declare-function make-lsp-client "ext:lsp-mode")
(declare-function lsp-stdio-connection "ext:lsp-mode")
(defvar lsp-language-id-configuration)
(with-eval-after-load 'lsp-mode
  (add-to-list 'lsp-language-id-configuration '(tamis-mode . "tamis"))
  (add-to-list 'lsp-language-id-configuration '(tamis-ts-mode . "tamis"))
  (lsp-register-client
   (make-lsp-client :new-connection (lsp-stdio-connection (lambda () tamis-server-command))
                    :activation-fn (lambda (_file mode)
                                     (or (memq mode '(tamis-mode tamis-ts-mode))
                                         (and (provided-mode-derived-p mode 'markdown-mode) (tamis-post-p))))
                    :server-id 'tamis)))

(defun tamis-post-p ()
  "Whether a manuscript stands in a fence of this Markdown."
  (save-excursion
    (save-restriction
      (widen)
      (goto-char (point-min))
      (let ((case-fold-search t))
        (re-search-forward "^ \\{0,3\\}\\(?:```+\\|~~~+\\)[ \t]*tamis\\(?:[ \t]\\|$\\)" nil t)))))

(declare-function eglot-ensure "ext:eglot")
;;;###autoload
(defun tamis-eglot-in-post ()
  "Check the manuscripts in the fences of this post, if it has any.  For `markdown-mode-hook'."
  (when (and (tamis-post-p) (require 'eglot nil t))
    ;; For this buffer only: other Markdown keeps the server that it has.
    (setq-local eglot-server-programs (cons (cons major-mode (lambda (&rest _) tamis-server-command)) eglot-server-programs))
    (eglot-ensure)))

(provide 'tamis-mode)
;;; tamis-mode.el ends here
