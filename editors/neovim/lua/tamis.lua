-- What the plugin and `lsp/tamis.lua` both ask. For Neovim 0.7 and later.

local M = {}

-- Whether there is something in a buffer to check: a manuscript, or a post in Markdown with one in a fence.
function M.is_ours(buffer)
  if vim.bo[buffer].filetype ~= 'markdown' then
    return true
  end
  for _, line in ipairs(vim.api.nvim_buf_get_lines(buffer, 0, -1, false)) do
    local word = line:match('^ ? ? ?```+[ \t]*(%a+)') or line:match('^ ? ? ?~~~+[ \t]*(%a+)')
    if word and word:lower() == 'tamis' then
      return true
    end
  end
  return false
end

-- The book is the folder that holds the house style sheet, else the folder of the manuscript.
function M.book_of(buffer)
  local folder = vim.fn.fnamemodify(vim.api.nvim_buf_get_name(buffer), ':p:h')
  local sheet = vim.fn.findfile('tamis.toml', vim.fn.fnameescape(folder) .. ';')
  return sheet == '' and folder or vim.fn.fnamemodify(sheet, ':p:h')
end

-- `gq` goes on to break lines: a server that lays ranges out would otherwise be asked to.
function M.on_attach(_, buffer)
  vim.bo[buffer].formatexpr = ''
end

return M
