//! What a syntax definition of Sublime Text makes of manuscripts, read by `syntect`, another implementation of that format: for each file
//! that is named, `[innermost scope, line, column, column]` for each stretch of a line, as JSON. Columns are in UTF-16 units.
//!
//!     sublime-runs FILE.sublime-syntax MANUSCRIPT...

use std::{collections::BTreeMap, env, error::Error, fs};

use serde_json::{Value, json};
use syntect::parsing::{ParseState, ScopeStack, SyntaxDefinition, SyntaxSetBuilder};

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = env::args().skip(1);
    let definition = arguments.next().ok_or("no syntax definition is named")?;
    let mut builder = SyntaxSetBuilder::new();
    builder.add(SyntaxDefinition::load_from_str(&fs::read_to_string(definition)?, true, None)?);
    let syntaxes = builder.build();
    let syntax = syntaxes.find_syntax_by_extension("tamis").ok_or("the definition is not for .tamis files")?;
    let mut files = BTreeMap::new();
    for path in arguments {
        let (mut state, mut stack, mut runs) = (ParseState::new(syntax), ScopeStack::new(), Vec::new());
        // Sublime Text keeps line ends as one character, whatever the file has.
        for (number, line) in fs::read_to_string(&path)?.replace("\r\n", "\n").split_inclusive('\n').enumerate() {
            let mut from = 0;
            for (to, change) in state.parse_line(line, &syntaxes)? {
                push(&mut runs, &stack, number, line, from..to);
                stack.apply(&change)?;
                from = to;
            }
            push(&mut runs, &stack, number, line, from..line.len());
        }
        files.insert(path, runs);
    }
    println!("{}", serde_json::to_string(&files)?);
    Ok(())
}

fn push(runs: &mut Vec<Value>, stack: &ScopeStack, number: usize, line: &str, place: std::ops::Range<usize>) {
    let units = |end: usize| line.get(..end).map_or(0, |before| before.encode_utf16().count());
    let scope = stack.as_slice().last().map(ToString::to_string).unwrap_or_default();
    if !place.is_empty() {
        runs.push(json!([scope, number, units(place.start), units(place.end)]));
    }
}
