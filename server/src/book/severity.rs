/// How badly a finding hurts whoever cooks from the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// The recipe cannot be followed as written.
    Error,
    /// It will mislead or fail some readers.
    Warning,
    /// An editor would query it.
    Info,
    /// A matter of style.
    Hint,
}

impl Severity {
    /// Its name in messages, in machine output and in the house style sheet.
    pub fn name(self) -> &'static str {
        match self {
            Severity::Error => "error",
            Severity::Warning => "warning",
            Severity::Info => "info",
            Severity::Hint => "hint",
        }
    }
}
