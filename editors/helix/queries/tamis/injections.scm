; Made by editors/generate.mjs from grammar/queries/: change it there.

; Remarks may hold TODO, FIXME and addresses, which the 'comment' language of many editors marks.
([(comment) (query)] @injection.content
 (#set! injection.language "comment"))
