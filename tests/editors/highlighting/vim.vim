" Writes what Vim takes each letter and digit of manuscripts for: one JSON object, for each file its runs `[group, line, from, to]`, with
" columns in characters.  vim -es -u NONE -S vim.vim  with $RUNTIME, $FILES (one a line) and $OUT set.

set nocompatible encoding=utf-8
let &runtimepath = $RUNTIME . ',' . &runtimepath
filetype plugin on
syntax on

let s:all = {}
for s:file in split($FILES, "\n")
  execute 'edit' fnameescape(s:file)
  let s:runs = []
  for s:line in range(1, line('$'))
    let s:text = getline(s:line)
    let s:byte = 1
    let s:column = 0
    for s:letter in split(s:text, '\zs')
      let s:group = synIDattr(synID(s:line, s:byte, 1), 'name')
      if !empty(s:group)
        if !empty(s:runs) && s:runs[-1][0] ==# s:group && s:runs[-1][1] == s:line - 1 && s:runs[-1][3] == s:column
          let s:runs[-1][3] += 1
        else
          call add(s:runs, [s:group, s:line - 1, s:column, s:column + 1])
        endif
      endif
      let s:byte += len(s:letter)
      let s:column += strchars(s:letter, 1)
    endfor
  endfor
  let s:all[s:file] = s:runs
  if &filetype !=# 'tamis'
    cquit
  endif
endfor
call writefile([json_encode(s:all)], $OUT)
qall!
