-- The server of recipe manuscripts, as Neovim 0.11 and later want it; `vim.lsp.config('tamis', …)` changes what is here.
local tamis = require('tamis')

return {
  cmd = { vim.g.tamis_program or 'tamis', 'lsp' },
  filetypes = { 'tamis', 'markdown' },
  root_dir = function(buffer, start)
    if tamis.is_ours(buffer) then
      start(tamis.book_of(buffer))
    end
  end,
  on_attach = tamis.on_attach,
}
