" What an author meets in Vim with ALE, set up as the page says. Run by vim.sh, with the sample open.

let s:patience = 60 " seconds; nothing waits for them unless it fails

function! s:Say(text) abort
  call writefile([a:text], $SAID, 'a')
endfunction

function! s:Fail(text) abort
  call s:Say('FAILED: ' . a:text)
  cquit
endfunction

" Waits until the expression is true.
function! s:WaitFor(what, expression) abort
  let l:start = localtime()
  while !eval(a:expression)
    if localtime() - l:start > s:patience
      call s:Fail(a:what . ' does not come: ' . string(ale#engine#GetLoclist(bufnr(''))) . "\n" . join(getline(1, '$'), "\n"))
    endif
    sleep 20m
  endwhile
endfunction

function! Unused(name) abort
  return filter(copy(ale#engine#GetLoclist(bufnr(''))), {_, each -> each.text =~# 'No step uses the ' . a:name})
endfunction

function! s:GoTo(words) abort
  call cursor(1, 1)
  if !search('\V' . a:words, 'c')
    call s:Fail('the text does not say "' . a:words . '"')
  endif
endfunction

" Types over words; without a screen, ALE is not told by itself that something was typed.
function! s:Replace(words, others) abort
  call s:GoTo(a:words)
  call setline('.', substitute(getline('.'), '\V' . a:words, a:others, ''))
  call ale#Queue(0)
endfunction

if &filetype !=# 'tamis'
  call s:Fail('the file is taken for ' . &filetype)
endif

" Findings: as it is opened, as one types, and as it is taken back.
call ale#Queue(0)
call s:WaitFor('the finding', 'len(Unused("walnuts"))')
call s:Say('finding, line ' . Unused('walnuts')[0].lnum . ': ' . Unused('walnuts')[0].text)
call s:Replace(' and the raisins.', '.')
call s:WaitFor('the finding of what was typed', 'len(Unused("raisins"))')
call s:Say('typed: ' . Unused('raisins')[0].text)
call s:Replace('then the carrots.', 'then the carrots and the raisins.')
call s:WaitFor('the end of that finding', 'empty(Unused("raisins")) && len(Unused("walnuts"))')

" Hover, in the window that ALE has for it.
let g:ale_hover_to_preview = 1
call s:GoTo('2 cups (220 g)')
normal K
function! Hover() abort
  for l:window in range(1, winnr('$'))
    if getwinvar(l:window, '&previewwindow')
      return join(getbufline(winbufnr(l:window), 1, '$'), ' | ')
    endif
  endfor
  return ''
endfunction
call s:WaitFor('the hover', 'Hover() =~# "220 g"')
call s:Say('hover: ' . Hover())
pclose

" Completion of a word in a step.
call s:Replace('then the carrots', 'then the wal')
call s:GoTo('wal and')
call cursor(line('.'), col('.') + 3)
if &omnifunc !=# 'ale#completion#OmniFunc'
  call s:Fail('nothing asks for completion')
endif
" ALE completes in Insert mode only, in which no script can wait.
runtime autoload/ale/util.vim
function! ale#util#Mode(...) abort
  return 'i'
endfunction
call ale#completion#OmniFunc(1, '')
call s:WaitFor('completion', 'ale#completion#GetCompletionResult() isnot v:null')
let s:words = map(copy(ale#completion#OmniFunc(0, 'wal')), {_, each -> each.word})
if index(s:words, 'walnuts') < 0
  call s:Fail('walnuts are not among what completes: ' . string(s:words))
endif
call s:Say('completion: ' . join(s:words, ', '))
call s:Replace('then the wal', 'then the carrots')
call s:WaitFor('the finding', 'len(Unused("walnuts"))')

" What ALE asks by the keyboard is answered here: which fix, by its title; which name.
function! ale#util#Input(message, value, ...) abort
  let l:fix = matchstr(a:message, '\d\+\ze) Name the walnuts in step 4')
  call s:Say(empty(l:fix) ? 'asked: ' . a:message : 'fix: ' . l:fix . ') Name the walnuts in step 4')
  return empty(l:fix) ? 'flour mix' : l:fix
endfunction

call s:GoTo('walnuts')
normal ga
call s:WaitFor('the fix', 'search("the \\[walnuts\\] and the raisins", "n")')
call ale#Queue(0)
call s:WaitFor('the end of the finding', 'empty(Unused("walnuts"))')
call s:GoTo('4. Fold')
call s:Say('fixed: ' . getline('.'))

call s:GoTo('dry mix')
normal gr
call s:WaitFor('the new name', 'search("=> flour mix", "n") && search("Fold in the flour mix", "n")')
call s:GoTo('4. Fold')
call s:Say('rename: ' . getline('.'))

" The layout: spaces, and the numbers of the steps.
call s:Replace('- 1/2 cup (75 g) raisins', '-  1\/2   cup (75 g) raisins')
call s:Replace('5. Scrape', '9. Scrape')
ALEFix
call s:WaitFor('the layout', 'search("^- 1/2 cup (75 g) raisins$", "nw") && search("^5\\. Scrape", "nw")')
call s:Say('laid out: ' . getline(search('raisins$', 'nw')))

write

" A post in Markdown, by what its fence holds; other Markdown is left alone.
execute 'edit' $POST
call ale#Queue(0)
call s:WaitFor('the finding in a post', 'len(Unused("plums"))')
call s:Say('post, line ' . Unused('plums')[0].lnum . ': ' . Unused('plums')[0].text)
execute 'edit' $OTHER
if &filetype !=# 'markdown' || !empty(tamis#Executable(bufnr('')))
  call s:Fail('other Markdown is served, too')
endif
call ale#lsp#StopAll()
quitall!
