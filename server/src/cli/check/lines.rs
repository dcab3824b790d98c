//! Findings on one line each: for the error lists of editors, and as annotations of a change on GitHub.

use crate::checks::{Finding, Severity};
use crate::cli::report::Checked;
use crate::text::{Encoding, LineIndex, Position};

/// `FILE:LINE:COLUMN: SEVERITY: MESSAGE [CODE]`, from 1; columns are letters. What the error lists of editors read.
pub fn show(checked: &Checked, path: &str, text: &str) -> String {
    let lines = LineIndex::new(text);
    let one = |(_, finding): &(String, Finding)| {
        let start = place(&lines, finding.span.start);
        let (severity, message) = (finding.severity.name(), one_line(&finding.message));
        format!("{}:{}:{}: {severity}: {message} [{}]\n", one_line(path), start.line, start.column, finding.code)
    };
    checked.findings.iter().map(one).collect()
}

/// The commands that a workflow on GitHub makes annotations of: `::warning file=…,line=…::…`. After its page "Workflow commands for
/// GitHub Actions", and for what has to be escaped the toolkit's `command.ts`.
pub fn annotations(checked: &Checked, path: &str, text: &str) -> String {
    let lines = LineIndex::new(text);
    let one = |(_, finding): &(String, Finding)| {
        let level = match finding.severity {
            Severity::Error => "error",
            Severity::Warning => "warning",
            Severity::Info | Severity::Hint => "notice",
        };
        let (start, end) = (place(&lines, finding.span.start), place(&lines, finding.span.end));
        let columns = match start.line == end.line {
            true => format!(",col={},endColumn={}", start.column, end.column),
            // Columns of several lines are refused.
            false => String::new(),
        };
        let (file, title) = (property(path), property(finding.code));
        let (line, end_line) = (start.line, end.line);
        format!(
            "::{level} file={file},line={line},endLine={end_line}{columns},title={title}::{}\n",
            data(&finding.message)
        )
    };
    checked.findings.iter().map(one).collect()
}

/// Line and column, both from 1, in letters.
pub fn place(lines: &LineIndex<'_>, offset: usize) -> Position {
    let Position { line, column } = lines.position(offset, Encoding::Utf32);
    Position { line: line + 1, column: column + 1 }
}

/// Text that breaks no line, and that no terminal obeys.
fn one_line(text: &str) -> String {
    text.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect()
}

fn data(text: &str) -> String {
    text.replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

fn property(text: &str) -> String {
    data(text).replace(':', "%3A").replace(',', "%2C")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::Span;

    const TEXT: &str = "Recipe: Crème\n\n- 🥚 eggs\n- 1 cup salt\n";

    fn checked(marked: &str, severity: Severity, message: &str) -> Checked {
        let start = TEXT.find(marked).unwrap();
        let finding = Finding::new("order-of-use", severity, Span::new(start, start + marked.len()), message);
        Checked { recipes: 1, findings: vec![(String::new(), finding)], ..Checked::default() }
    }

    #[test]
    fn a_finding_takes_one_line_whatever_it_says() {
        let shown = show(&checked("eggs", Severity::Info, "100 % of\nthe \u{1b}[31meggs"), "a b.tamis", TEXT);
        assert_eq!(shown, "a b.tamis:3:5: info: 100 % of the  [31meggs [order-of-use]\n");
    }

    #[test]
    fn annotations_are_escaped_as_github_reads_them() {
        let shown = annotations(&checked("eggs", Severity::Hint, "100 % of: the,\r\neggs"), "jam:1,2%.tamis", TEXT);
        let expected = "::notice file=jam%3A1%2C2%25.tamis,line=3,endLine=3,col=5,endColumn=9,title=order-of-use::\
                        100 %25 of: the,%0D%0Aeggs\n";
        assert_eq!(shown, expected);
        let two_lines = annotations(&checked("eggs\n- 1 cup", Severity::Error, "both"), "a.tamis", TEXT);
        assert_eq!(two_lines, "::error file=a.tamis,line=3,endLine=4,title=order-of-use::both\n");
    }
}
