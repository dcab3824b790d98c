-- What Neovim is shown of the server. Run by neovim.sh, with the sample open in the first window; written for Neovim 0.7,
-- whose functions the later ones still have.

local patience = 20000 -- milliseconds; nothing waits for them unless it fails

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

local buffer = vim.api.nvim_get_current_buf()
local left -- exit code of the server

local client_id = must(vim.lsp.start_client({
  name = 'tamis',
  cmd = { os.getenv('TAMIS'), 'lsp' },
  root_dir = vim.fn.expand('%:p:h'),
  get_language_id = function()
    return 'tamis'
  end,
  on_exit = function(code)
    left = code
  end,
}), 'the server does not start')
vim.lsp.buf_attach_client(buffer, client_id)
local client = must(vim.lsp.get_client_by_id(client_id), 'the server has gone')

-- The diagnostics of one check. 0.7 keeps the code where only the protocol looks.
local function found(code)
  local of_check = {}
  for _, diagnostic in ipairs(vim.diagnostic.get(buffer)) do
    local their_code = diagnostic.code or diagnostic.user_data and diagnostic.user_data.lsp.code
    if their_code == code then
      table.insert(of_check, diagnostic)
    end
  end
  return of_check
end

local function request(method, params)
  local answers = must(vim.lsp.buf_request_sync(buffer, method, params, patience), '%s: no answer', method)
  local answer = must(answers[client_id], '%s: no answer of ours', method)
  must(not answer.err, '%s: %s', method, vim.inspect(answer.err))
  return answer.result
end

local function place(line, column)
  return { textDocument = vim.lsp.util.make_text_document_params(), position = { line = line, character = column } }
end

-- Line and column, from 0, of the first place where `words` stand.
local function find(words)
  for number, line in ipairs(vim.api.nvim_buf_get_lines(buffer, 0, -1, false)) do
    local column = line:find(words, 1, true)
    if column then
      return number - 1, column - 1
    end
  end
  fail('the sample no longer says "%s"', words)
end

-- 1. It opens: the finding is there.
must(vim.wait(patience, function()
  return #found('ingredient-unused') > 0
end, 10), 'no diagnostic: %s', vim.inspect(vim.diagnostic.get(buffer)))
local unused = found('ingredient-unused')[1]
say('diagnostic, line %d: %s', unused.lnum + 1, unused.message)

-- 2. Someone types, behind an emoji, and takes it back: both sides still mean the same text.
vim.api.nvim_buf_set_lines(buffer, 0, 0, false, { '🥕 // a note' })
vim.api.nvim_buf_set_text(buffer, 0, 4, 0, 4, { '🥕' })
local written = table.concat(vim.api.nvim_buf_get_lines(buffer, 0, -1, false), '\n') .. '\n'
local held = request('tamis/text', { textDocument = vim.lsp.util.make_text_document_params() })
must(held.text == written, 'the server holds another text: %s', held.text)
vim.api.nvim_buf_set_lines(buffer, 0, 1, false, {})
say('text: the same on both sides, version %d', held.version)

-- 3. A hover over an amount.
local line, column = find('2 cups (220 g)')
local hover = must(request('textDocument/hover', place(line, column)), 'no hover over an amount')
say('hover: %s', (hover.contents.value:gsub('\n+', ' | ')))

-- 4. The quick fix.
must(vim.wait(patience, function()
  return #found('ingredient-unused') > 0 and found('ingredient-unused')[1].lnum == unused.lnum
end, 10), 'the diagnostic does not move back with its line')
local range = { start = place(unused.lnum, unused.col).position, ['end'] = place(unused.lnum, unused.col).position }
local actions = request('textDocument/codeAction', {
  textDocument = vim.lsp.util.make_text_document_params(),
  range = range,
  context = { diagnostics = {}, only = { 'quickfix' } },
})
local action = must(actions and actions[1], 'no quick fix for an ingredient that is not used')
say('quick fix: %s', action.title)
vim.lsp.util.apply_workspace_edit(action.edit, client.offset_encoding)
must(vim.wait(patience, function()
  return #found('ingredient-unused') == 0
end, 10), 'the diagnostic is still there')
say('after it: %d diagnostics', #vim.diagnostic.get(buffer))

-- 5. Saved, and left in order.
vim.cmd('silent write')
vim.lsp.stop_client(client_id)
must(vim.wait(patience, function()
  return left ~= nil
end, 10), 'the server does not end')
must(left == 0, 'the server ended with code %s', left)
say('the server has ended with code 0')
vim.cmd('quitall!')
