autocmd BufNewFile,BufRead *.tamis setfiletype tamis
