-- The server of recipe manuscripts, as Neovim 0.11 and later want it; `vim.lsp.config('tamis', …)` changes what is here.
return {
  cmd = { vim.g.tamis_program or 'tamis', 'lsp' },
  filetypes = { 'tamis' },
  root_markers = { 'tamis.toml', '.git' },
}
