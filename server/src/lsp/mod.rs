//! (layer lsp)
