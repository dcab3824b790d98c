" For ALE, which does not ask a language server for the layout: the program itself lays the manuscript out.

function! ale#fixers#tamis#Fix(buffer) abort
  return {'command': ale#Escape(ale#Var(a:buffer, 'tamis_executable')) . ' format -'}
endfunction
