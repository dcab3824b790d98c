-- What an author meets in Neovim, with the plugin as its page installs it. Run by neovim.sh, with the sample open in the first window;
-- written for Neovim 0.7, whose functions the later ones still have.

local patience = 60000 -- milliseconds; nothing waits for them unless it fails

local function say(...)
  io.stdout:write(string.format(...), '\n')
end

local function fail(...)
  io.stderr:write('FAILED: ', string.format(...), '\n')
  vim.cmd('cquit 1')
end

local function must(value, ...)
  if not value then
    fail(...)
  end
  return value
end

local function wait_for(what, holds)
  must(vim.wait(patience, holds, 10), '%s does not come: %s', what, vim.inspect(vim.diagnostic.get(0)))
end

local buffer = vim.api.nvim_get_current_buf()
must(vim.bo.filetype == 'tamis', 'the file is taken for "%s"', vim.bo.filetype)

-- The plugin has started the server.
local client
wait_for('a server', function()
  client = vim.tbl_filter(function(each)
    return each.name == 'tamis'
  end, (vim.lsp.get_clients or vim.lsp.get_active_clients)())[1]
  return client and vim.lsp.buf_is_attached(buffer, client.id)
end)

-- The diagnostics of one check. 0.7 keeps the code where only the protocol looks.
local function found(code)
  return vim.tbl_filter(function(diagnostic)
    return code == (diagnostic.code or diagnostic.user_data and diagnostic.user_data.lsp.code)
  end, vim.diagnostic.get(0))
end

local function unused(name)
  return vim.tbl_filter(function(diagnostic)
    return diagnostic.message:find(name, 1, true)
  end, found('ingredient-unused'))
end

local function request(method, params)
  local answers = must(vim.lsp.buf_request_sync(buffer, method, params, patience), '%s: no answer', method)
  local answer = must(answers[client.id], '%s: no answer of ours', method)
  must(not answer.err, '%s: %s', method, vim.inspect(answer.err))
  return answer.result
end

local function lines()
  return vim.api.nvim_buf_get_lines(buffer, 0, -1, false)
end

-- Line and column, from 0, of the first place where `words` stand.
local function find(words)
  for number, line in ipairs(lines()) do
    local column = line:find(words, 1, true)
    if column then
      return number - 1, column - 1
    end
  end
  fail('the text does not say "%s":\n%s', words, table.concat(lines(), '\n'))
end

local function go_to(words)
  local line, column = find(words)
  vim.api.nvim_win_set_cursor(0, { line + 1, column })
end

local function replace(words, others)
  local line, column = find(words)
  vim.api.nvim_buf_set_text(buffer, line, column, line, column + #words, { others })
end

-- Findings: as it is opened, as one types, and as it is taken back.
wait_for('a finding', function()
  return #unused('walnuts') == 1
end)
local walnuts = unused('walnuts')[1]
must(#found('ingredient-unused') == 1, 'more is unused than the walnuts')
say('finding, line %d: %s', walnuts.lnum + 1, walnuts.message)
replace(' and the raisins.', '.')
wait_for('the finding of what was typed', function()
  return #unused('raisins') == 1
end)
say('typed: %s', unused('raisins')[1].message)
replace('then the carrots.', 'then the carrots and the raisins.')
wait_for('the end of that finding', function()
  return #unused('raisins') == 0
end)

-- Behind an emoji, both sides still mean the same text.
vim.api.nvim_buf_set_lines(buffer, 0, 0, false, { '🥕 // a note' })
vim.api.nvim_buf_set_text(buffer, 0, 4, 0, 4, { '🥕' })
local held = request('tamis/text', { textDocument = vim.lsp.util.make_text_document_params() })
must(held.text == table.concat(lines(), '\n') .. '\n', 'the server holds another text: %s', held.text)
vim.api.nvim_buf_set_lines(buffer, 0, 1, false, {})
say('text: the same on both sides, version %d', held.version)

-- Hover, in the window that Neovim opens for it.
go_to('2 cups (220 g)')
vim.lsp.buf.hover()
local shown
wait_for('the hover', function()
  for _, window in ipairs(vim.api.nvim_list_wins()) do
    if vim.api.nvim_win_get_config(window).relative ~= '' then
      shown = table.concat(vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(window), 0, -1, false), ' | ')
    end
  end
  return shown
end)
must(shown:find('220 g', 1, true), 'the hover says: %s', shown)
say('hover: %s', shown)

-- Completion of a word in a step.
replace('then the carrots', 'then the wal')
local line, column = find('wal and')
local answer = request('textDocument/completion', {
  textDocument = vim.lsp.util.make_text_document_params(),
  position = { line = line, character = column + 3 },
})
local labels = vim.tbl_map(function(item)
  return item.label
end, answer.items or answer)
must(vim.tbl_contains(labels, 'walnuts'), 'walnuts are not among what completes: %s', vim.inspect(labels))
must(vim.bo[buffer].omnifunc == 'v:lua.vim.lsp.omnifunc', 'nothing asks for completion')
say('completion: %s', table.concat(labels, ', '))
replace('then the wal', 'then the carrots')

-- A fix, chosen from the menu.
wait_for('the finding', function()
  return #unused('walnuts') == 1 and unused('walnuts')[1].lnum == walnuts.lnum
end)
go_to('walnuts')
local offered = {}
vim.ui.select = function(items, options, choose)
  for nth, item in ipairs(items) do
    local title = options.format_item(item)
    table.insert(offered, title)
    if title == 'Name the walnuts in step 4' then
      return choose(item, nth)
    end
  end
end
vim.lsp.buf.code_action()
wait_for('the end of the finding', function()
  return #offered > 0 and #found('ingredient-unused') == 0
end)
say('fix: %s; step 4 now: %s', offered[#offered], lines()[find('4. Fold') + 1])

-- Another name, in both places.
go_to('dry mix')
vim.lsp.buf.rename('flour mix')
wait_for('the new name', function()
  local text = table.concat(lines(), '\n')
  return text:find('=> flour mix', 1, true) and text:find('Fold in the flour mix', 1, true)
end)
say('rename: %s', lines()[find('=> flour mix') + 1])

-- The layout: spaces, and the numbers of the steps.
replace('- 1/2 cup (75 g) raisins', '-  1/2   cup (75 g) raisins')
replace('5. Scrape', '9. Scrape')
if vim.lsp.buf.format then
  vim.lsp.buf.format({ timeout_ms = patience })
else
  vim.lsp.buf.formatting_sync(nil, patience)
end
find('5. Scrape')
say('laid out: %s', lines()[find('- 1/2 cup (75 g) raisins') + 1])

-- Colours by the parser, from 0.9 on.
if vim.fn.has('nvim-0.9') == 1 then
  must(vim.treesitter.highlighter.active[buffer], 'the parser does not colour')
  local captures = vim.tbl_map(function(capture)
    return capture.capture
  end, vim.treesitter.get_captures_at_pos(buffer, find('Carrot Tea Bread')))
  must(vim.tbl_contains(captures, 'markup.heading.1'), 'the title is %s', vim.inspect(captures))
  for _, query in ipairs({ 'highlights', 'folds', 'indents', 'injections', 'locals' }) do
    must(vim.treesitter.query.get('tamis', query), 'no query %s', query)
  end
  say('colours: by the parser')
else
  must(vim.fn.synIDattr(vim.fn.synID(1, 9, 1), 'name') == 'tamisTitle', 'the title is not coloured')
  say('colours: by syntax/tamis.vim')
end

vim.cmd('silent write')

-- A post in Markdown, by what its fence holds; other Markdown is left alone. Lines are broken as ever.
local function attached()
  return vim.lsp.buf_is_attached(vim.api.nvim_get_current_buf(), client.id)
end
vim.cmd('edit ' .. os.getenv('POST'))
wait_for('the finding in a post', function()
  return #unused('plums') == 1 and unused('plums')[1].lnum == 7
end)
must(vim.bo.formatexpr == '', 'lines are broken by %s', vim.bo.formatexpr)
say('post, line 8: %s', unused('plums')[1].message)
vim.cmd('edit ' .. os.getenv('OTHER'))
must(vim.bo.filetype == 'markdown' and not attached(), 'other Markdown is served, too')

vim.lsp.stop_client(client.id)
wait_for('the end of the server', function()
  return vim.fn.filereadable(os.getenv('LEFT')) == 1
end)
vim.cmd('quitall!')
