; Remarks may hold TODO, FIXME and addresses, which the 'comment' language of many editors marks.
([(comment) (query)] @injection.content
 (#set! injection.language "comment"))
