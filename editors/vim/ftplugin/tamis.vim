" Recipe manuscripts: how they are typed.

if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1
let s:options = &cpoptions
set cpoptions&vim

setlocal commentstring=//\ %s
" Enter in a remark goes on with it; a list and the numbers of steps are known to gq.
setlocal comments=://,b:??
setlocal formatoptions+=nj
let &l:formatlistpat = '^\s*\%(\%(Step \)\?\d\+[.):]\|[-*•]\)\s\+'
setlocal expandtab shiftwidth=2 softtabstop=2
setlocal autoindent linebreak breakindent
setlocal define=^Recipe:
setlocal suffixesadd=.tamis

let b:undo_ftplugin = 'setlocal commentstring< comments< formatoptions< formatlistpat< expandtab< shiftwidth< softtabstop<'
      \ . ' autoindent< linebreak< breakindent< define< suffixesadd<'

let &cpoptions = s:options
unlet s:options
