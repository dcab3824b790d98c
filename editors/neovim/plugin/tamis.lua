-- Recipe manuscripts: the server for each that is opened, and colours by the parser where there is one. For Neovim 0.7 and later.

if vim.g.loaded_tamis then
  return
end
vim.g.loaded_tamis = true

local tamis = require('tamis')
local program = vim.g.tamis_program or 'tamis'
local has_program = vim.fn.executable(program) == 1
-- From 0.11 on, Neovim itself starts what `lsp/` describes.
local starts_itself = has_program and vim.lsp.config and vim.lsp.enable
if starts_itself then
  vim.lsp.enable('tamis')
end

-- The keys that Neovim 0.11 has of itself, for those before it; a key that is taken stays as it is.
local KEYS = {
  K = vim.lsp.buf.hover,
  grn = vim.lsp.buf.rename,
  gra = vim.lsp.buf.code_action,
  grr = vim.lsp.buf.references,
  gO = vim.lsp.buf.document_symbol,
  ['[d'] = vim.diagnostic.goto_prev,
  [']d'] = vim.diagnostic.goto_next,
}

local function serve(buffer)
  vim.bo[buffer].omnifunc = 'v:lua.vim.lsp.omnifunc'
  for key, action in pairs(KEYS) do
    if vim.fn.maparg(key, 'n') == '' then
      vim.keymap.set('n', key, function()
        action()
      end, { buffer = buffer })
    end
  end
end

local started = {} -- servers by book: before 0.8 Neovim does not look for one that runs

local function start(buffer)
  local book = tamis.book_of(buffer)
  local config = { name = 'tamis', cmd = { program, 'lsp' }, root_dir = book, on_attach = tamis.on_attach }
  if vim.lsp.start then
    vim.lsp.start(config)
  else
    config.on_exit = function()
      started[book] = nil
    end
    started[book] = started[book] or vim.lsp.start_client(config)
    vim.lsp.buf_attach_client(buffer, started[book])
  end
  serve(buffer)
end

local told = false
local function tell()
  if not told then
    told = true
    vim.notify(
      ('Recipes are coloured, but not checked: there is no program %s. Put it on the PATH, or say where it is: vim.g.tamis_program = "/where/it/is/tamis"'):format(program),
      vim.log.levels.WARN
    )
  end
end

vim.api.nvim_create_autocmd('FileType', {
  group = vim.api.nvim_create_augroup('tamis', {}),
  pattern = { 'tamis', 'markdown' },
  callback = function(args)
    if not tamis.is_ours(args.buf) then
      return
    end
    if args.match == 'tamis' then
      -- Fails where there is no parser: then the colours are those of syntax/tamis.vim.
      pcall(vim.treesitter.start, args.buf, 'tamis')
    end
    if not has_program then
      tell()
    elseif not starts_itself then
      start(args.buf)
    end
  end,
})
