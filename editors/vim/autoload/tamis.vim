" What the linters for ALE both ask.

" The program that checks; none for a post in Markdown without a manuscript in a fence, which is then left alone.
function! tamis#Executable(buffer) abort
  let l:fence = '\c^ \{0,3}\%(````*\|\~\~\~\~*\)\s*tamis\%(\s\|$\)'
  if getbufvar(a:buffer, '&filetype') is# 'markdown' && match(getbufline(a:buffer, 1, '$'), l:fence) < 0
    return ''
  endif
  return ale#Var(a:buffer, 'tamis_executable')
endfunction

" The book is the folder that holds the house style sheet, else the folder of the manuscript.
function! tamis#Book(buffer) abort
  let l:sheet = ale#path#FindNearestFile(a:buffer, 'tamis.toml')
  return empty(l:sheet) ? expand('#' . a:buffer . ':p:h') : fnamemodify(l:sheet, ':h')
endfunction

function! tamis#Define(filetype) abort
  call ale#Set('tamis_executable', 'tamis')
  call ale#linter#Define(a:filetype, {
        \ 'name': 'tamis',
        \ 'lsp': 'stdio',
        \ 'executable': function('tamis#Executable'),
        \ 'command': '%e lsp',
        \ 'language': a:filetype,
        \ 'project_root': function('tamis#Book'),
        \ })
endfunction
