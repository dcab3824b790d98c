//! An open document, a manuscript or a style sheet: its text and what is known of it. The one place where the face towards editors meets the layers
//! beneath it.

use std::cell::{RefCell, RefMut};
use std::path::{Path, PathBuf};

use tower_lsp::lsp_types::Url;

use super::marks::Worded;
use super::tokens::Colours;
pub use crate::checks::{Finding, Fix, Severity};
use crate::{
    assist,
    book::Book,
    text::{Backlog, Document, Edit, Span},
    workspace::{Manuscript, book, posts::Form, sheet_help, walk},
};

/// A document that is open in the editor. Its text follows every edit at once; what is known of it follows when it
/// [catches up](Opened::catch_up).
pub struct Opened {
    uri: Url,
    version: i32,
    text: Document,
    backlog: Backlog,
    read: Read,
    colours: RefCell<Colours>,
    worded: RefCell<Worded>,
}

/// What has been read.
enum Read {
    /// A manuscript.
    Manuscript(Box<Manuscript>),
    /// A style sheet, which is small enough to be read anew each time.
    Sheet { text: Document, findings: Vec<Finding> },
}

impl Opened {
    /// The document as the client opened it; a manuscript is read as a part of that book.
    pub fn new(uri: Url, version: i32, text: &str, book: Book) -> Self {
        let text = Document::new(text);
        let read = if is_sheet(&uri) { Read::sheet(&text) } else { Read::manuscript(&text, form_of(&uri), book) };
        Opened {
            uri,
            version,
            text,
            backlog: Backlog::default(),
            read,
            colours: RefCell::default(),
            worded: RefCell::default(),
        }
    }

    /// Where it is, or will be, saved; `untitled:` if that is not known yet.
    pub fn uri(&self) -> &Url {
        &self.uri
    }

    /// The version of the text, as the client counts it.
    pub fn version(&self) -> i32 {
        self.version
    }

    /// The text.
    pub fn text(&self) -> &Document {
        &self.text
    }

    /// Edits the text. Edits that lie near each other are read in one go when it catches up.
    pub fn apply(&mut self, edit: &Edit) {
        if !self.backlog.is_near(edit.span) {
            self.catch_up();
        }
        let replaced = self.text.apply(edit);
        self.backlog.add(replaced, edit.text.len());
    }

    /// Reads what has been edited. To be called before anything else than its text is asked for.
    pub fn catch_up(&mut self) {
        if let Some(edit) = self.backlog.take(&self.text) {
            match &mut self.read {
                Read::Manuscript(manuscript) => manuscript.apply(&edit),
                Read::Sheet { .. } => self.read = Read::sheet(&self.text),
            }
        }
    }

    /// Reads a manuscript as a part of a book that has changed; says whether anything else may be found then.
    pub fn obey(&mut self, book: Book) -> bool {
        self.catch_up();
        match &mut self.read {
            Read::Manuscript(manuscript) => manuscript.obey(book),
            Read::Sheet { .. } => false,
        }
    }

    /// The text as it has been read: the same, once it has caught up.
    pub fn text_as_read(&self) -> String {
        match &self.read {
            Read::Manuscript(manuscript) => manuscript.text(),
            Read::Sheet { text, .. } => text.to_string(),
        }
    }

    /// What has been read of a manuscript; nothing for a style sheet.
    pub fn manuscript(&self) -> Option<&Manuscript> {
        match &self.read {
            Read::Manuscript(manuscript) => Some(manuscript),
            Read::Sheet { .. } => None,
        }
    }

    /// The semantic tokens that have been worked out so far. To be let go of before they are asked for again.
    pub fn colours(&self) -> RefMut<'_, Colours> {
        self.colours.borrow_mut()
    }

    /// The diagnostics that have been worked out so far. To be let go of before they are asked for again.
    pub fn worded(&self) -> RefMut<'_, Worded> {
        self.worded.borrow_mut()
    }

    /// Says that all edits up to `version` have been applied.
    pub fn reach(&mut self, version: i32) {
        self.version = version;
    }

    /// What is wrong with it, in the order of the text.
    pub fn findings(&self) -> Vec<Finding> {
        match &self.read {
            Read::Manuscript(manuscript) => manuscript.findings(),
            Read::Sheet { findings, .. } => findings.clone(),
        }
    }

    /// The fixes of a finding that keep their word, which is tried here: for whoever may make one.
    pub fn fixes(&self, finding: &Finding) -> Vec<Fix> {
        match &self.read {
            Read::Manuscript(manuscript) => manuscript.tried(finding),
            Read::Sheet { .. } => finding.fixes.clone(),
        }
    }

    /// What there is to say, in Markdown, about the place at `offset`, and how far that place reaches.
    pub fn hover(&self, offset: usize) -> Option<(Span, String)> {
        let manuscript = match &self.read {
            Read::Manuscript(manuscript) => manuscript,
            Read::Sheet { text, .. } => return sheet_help::meaning(&text.to_string(), offset),
        };
        let (start, recipe) = manuscript.recipe_at(offset)?;
        let hover = assist::hover(recipe, manuscript.house(), offset - start)?;
        Some((hover.span.shifted(start), hover.markdown))
    }
}

impl Opened {
    /// What can be done with the lines that `asked` lies in, or with their recipe, on this day: titles and edits.
    pub fn actions(&self, asked: Span, today: &str) -> Vec<(String, Vec<Edit>)> {
        let Read::Manuscript(manuscript) = &self.read else { return Vec::new() };
        let Some((start, recipe)) = manuscript.recipe_at(asked.start) else { return Vec::new() };
        let within = |offset: usize| offset.saturating_sub(start).min(recipe.text.len());
        let asked = Span::new(within(asked.start), within(asked.end));
        let actions = assist::actions(recipe, manuscript.house(), asked).into_iter();
        let lines = actions.map(|action| (action.title, action.edits));
        let all = lines.chain(assist::whole_recipe(recipe, manuscript.house(), asked, today));
        all.map(|(title, edits)| (title, edits.into_iter().map(|edit| edit.shifted(start)).collect())).collect()
    }
}

impl Read {
    fn manuscript(text: &Document, form: Form, book: Book) -> Self {
        Read::Manuscript(Box::new(Manuscript::of(&text.to_string(), form, book)))
    }

    fn sheet(text: &Document) -> Self {
        Read::Sheet { findings: book::check_sheet(&text.to_string()), text: text.clone() }
    }
}

/// What a document is, by the name of its file.
fn form_of(uri: &Url) -> Form {
    Form::of(Path::new(uri.path()))
}

/// Whether a document is a style sheet.
pub fn is_sheet(uri: &Url) -> bool {
    path(uri).is_some_and(|path| book::is_sheet(&path))
}

/// Whether a file may be a manuscript, or a post that holds some, by its name.
pub fn is_manuscript(uri: &Url) -> bool {
    path(uri).is_some_and(|path| walk::has_ending(&path)) || form_of(uri) == Form::Post
}

/// The file that a document is, if it is one.
pub fn path(uri: &Url) -> Option<PathBuf> {
    uri.to_file_path().ok()
}
