" For ALE: the language server of the recipe manuscripts.

call ale#Set('tamis_executable', 'tamis')

" The book is the folder that holds the house style sheet, else the folder of the manuscript.
function! ale_linters#tamis#tamis#GetProjectRoot(buffer) abort
  let l:sheet = ale#path#FindNearestFile(a:buffer, 'tamis.toml')
  return empty(l:sheet) ? expand('#' . a:buffer . ':p:h') : fnamemodify(l:sheet, ':h')
endfunction

call ale#linter#Define('tamis', {
      \ 'name': 'tamis',
      \ 'lsp': 'stdio',
      \ 'executable': {buffer -> ale#Var(buffer, 'tamis_executable')},
      \ 'command': '%e lsp',
      \ 'language': 'tamis',
      \ 'project_root': function('ale_linters#tamis#tamis#GetProjectRoot'),
      \ })
