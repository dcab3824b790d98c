//! Spans and findings into the protocol's words, and positions back into offsets.

use tower_lsp::lsp_types::{
    CodeDescription, Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, DiagnosticTag, Location,
    NumberOrString, Position, Range, TextEdit,
};

use super::capabilities::Editor;
use super::documents::{Finding, Opened, Severity};
use crate::text::{self, Edit, LineEnding, Span};

/// What diagnostics say they come from.
const SOURCE: &str = "tamis";

/// Speaks of one document to one editor.
#[derive(Clone, Copy)]
pub struct Converter<'d> {
    document: &'d Opened,
    editor: &'d Editor,
}

impl<'d> Converter<'d> {
    /// Speaks of `document` to `editor`.
    pub fn new(document: &'d Opened, editor: &'d Editor) -> Self {
        Converter { document, editor }
    }

    /// The byte offset of a position.
    pub fn offset(self, position: Position) -> usize {
        self.document.text().offset(inside(position), self.editor.encoding)
    }

    /// The bytes in a range.
    pub fn span(self, range: Range) -> Span {
        self.document.text().span(inside(range.start)..inside(range.end), self.editor.encoding)
    }

    /// The range of some bytes.
    pub fn range(self, span: Span) -> Range {
        Range::new(self.position(span.start), self.position(span.end))
    }

    fn position(self, offset: usize) -> Position {
        let position = self.document.text().position(offset, self.editor.encoding);
        Position::new(position.line, position.column)
    }

    /// Edits of one text, whose new lines end as the document's do.
    pub fn text_edits<'e>(self, edits: impl IntoIterator<Item = &'e Edit>) -> Vec<TextEdit> {
        let ending: LineEnding = self.document.text().line_ending();
        let one = |edit: &Edit| TextEdit::new(self.range(edit.span), ending.put_into(&edit.text).into_owned());
        edits.into_iter().map(one).collect()
    }

    /// A finding as a diagnostic. Nothing is said of its fixes: code actions offer those that keep their word, and a list of what might be
    /// offered would go out with every keystroke.
    pub fn diagnostic(self, finding: &Finding) -> Diagnostic {
        Diagnostic {
            range: self.range(finding.span),
            severity: Some(severity(finding.severity)),
            code: Some(NumberOrString::String(finding.code.to_string())),
            code_description: self.editor.page_of(finding.code).map(|href| CodeDescription { href }),
            source: Some(SOURCE.to_string()),
            message: finding.message.clone(),
            related_information: self.related(finding),
            tags: self.tags(finding),
            data: None,
        }
    }

    fn related(self, finding: &Finding) -> Option<Vec<DiagnosticRelatedInformation>> {
        if !self.editor.related_information || finding.related.is_empty() {
            return None;
        }
        let one = |(span, message): &(Span, String)| DiagnosticRelatedInformation {
            location: Location::new(self.document.uri().clone(), self.range(*span)),
            message: message.clone(),
        };
        Some(finding.related.iter().map(one).collect())
    }

    /// What is listed or made and never used can be shown faded.
    fn tags(self, finding: &Finding) -> Option<Vec<DiagnosticTag>> {
        let unused = self.editor.unnecessary_tag && finding.code.ends_with("-unused");
        unused.then(|| vec![DiagnosticTag::UNNECESSARY])
    }
}

fn inside(position: Position) -> text::Position {
    text::Position::new(position.line, position.character)
}

fn severity(severity: Severity) -> DiagnosticSeverity {
    match severity {
        Severity::Error => DiagnosticSeverity::ERROR,
        Severity::Warning => DiagnosticSeverity::WARNING,
        Severity::Info => DiagnosticSeverity::INFORMATION,
        Severity::Hint => DiagnosticSeverity::HINT,
    }
}
