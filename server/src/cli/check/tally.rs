use std::fmt;

use crate::checks::Severity;
use crate::cli::report::Checked;

/// How much has been read and found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tally {
    /// Manuscripts read.
    pub files: usize,
    /// Style sheets read.
    pub sheets: usize,
    /// Recipes in them.
    pub recipes: usize,
    /// Findings of severity error.
    pub errors: usize,
    /// Findings of severity warning.
    pub warnings: usize,
    /// Findings of severity info.
    pub infos: usize,
    /// Findings of severity hint.
    pub hints: usize,
}

impl Tally {
    /// The tally of one file.
    pub fn of(checked: &Checked) -> Self {
        let count = |severity| checked.findings.iter().filter(|(_, finding)| finding.severity == severity).count();
        Tally {
            files: usize::from(!checked.is_sheet),
            sheets: usize::from(checked.is_sheet),
            recipes: checked.recipes,
            errors: count(Severity::Error),
            warnings: count(Severity::Warning),
            infos: count(Severity::Info),
            hints: count(Severity::Hint),
        }
    }

    /// Adds another file's.
    pub fn add(&mut self, other: Tally) {
        self.files += other.files;
        self.sheets += other.sheets;
        self.recipes += other.recipes;
        self.errors += other.errors;
        self.warnings += other.warnings;
        self.infos += other.infos;
        self.hints += other.hints;
    }

    /// Whether nothing at all was found.
    pub fn is_clean(&self) -> bool {
        self.errors + self.warnings + self.infos + self.hints == 0
    }
}

impl fmt::Display for Tally {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let counted = |count: usize, one: &str| format!("{count} {one}{}", if count == 1 { "" } else { "s" });
        let recipes = format!("{} in {}", counted(self.recipes, "recipe"), counted(self.files, "file"));
        let sheets = counted(self.sheets, "style sheet");
        match (self.files, self.sheets) {
            (_, 0) => write!(f, "Checked {recipes}")?,
            (0, _) => write!(f, "Checked {sheets}")?,
            _ => write!(f, "Checked {recipes} and {sheets}")?,
        }
        f.write_str(": ")?;
        if self.is_clean() {
            return f.write_str("nothing to mend.");
        }
        let found = [
            (self.errors, counted(self.errors, "error")),
            (self.warnings, counted(self.warnings, "warning")),
            (self.infos, format!("{} for information", self.infos)),
            (self.hints, counted(self.hints, "hint")),
        ];
        let found: Vec<String> = found.into_iter().filter(|(count, _)| *count > 0).map(|(_, words)| words).collect();
        write!(f, "{}.", found.join(", "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_says_only_what_there_is() {
        let tally = |files, recipes, errors, warnings, infos, hints| {
            Tally { files, sheets: 0, recipes, errors, warnings, infos, hints }.to_string()
        };
        assert_eq!(tally(1, 1, 0, 0, 0, 0), "Checked 1 recipe in 1 file: nothing to mend.");
        assert_eq!(tally(2, 5, 1, 2, 0, 0), "Checked 5 recipes in 2 files: 1 error, 2 warnings.");
        assert_eq!(tally(0, 0, 0, 0, 3, 1), "Checked 0 recipes in 0 files: 3 for information, 1 hint.");
        let sheets = Tally { files: 2, sheets: 1, recipes: 3, ..Tally::default() };
        assert_eq!(sheets.to_string(), "Checked 3 recipes in 2 files and 1 style sheet: nothing to mend.");
        let alone = Tally { sheets: 2, errors: 1, ..Tally::default() };
        assert_eq!(alone.to_string(), "Checked 2 style sheets: 1 error.");
    }
}
