#![allow(missing_docs, clippy::unwrap_used)]
use std::sync::Arc;
use tamis::{assist, workspace::Manuscript};
fn main() {
    for path in std::env::args().skip(1) {
        let text = std::fs::read_to_string(&path).unwrap();
        let m = Manuscript::new(&text, Arc::default());
        println!("##### {path}");
        for (_, r) in m.recipes() {
            let mut last = None;
            for (o, _) in r.text.char_indices() {
                let h = assist::hover(r, m.house(), o);
                if h != last {
                    if let Some(h) = &h {
                        println!("[{}]\n    {}", r.at(h.span).replace('\n', " "), h.markdown.replace("\n\n", "\n    "));
                    }
                    last = h;
                }
            }
        }
    }
}
