//! Commands: what is done to a recipe as a whole, asked for by the editor's user, with a number or a day to go with it.

use serde::Deserialize;
use tower_lsp::Client;
use tower_lsp::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp::lsp_types::{ExecuteCommandOptions, ExecuteCommandParams, MessageType, Position, Url, WorkspaceEdit};

use super::actions::workspace_edit;
use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::Opened;
use super::places::here;
use super::rename::REQUEST_FAILED;
use crate::assist::{self, Change, Scaled, Wanted};
use crate::text::Edit;

/// The recipe for another number of people, told as `to`.
const SCALE: &str = "tamis.scale";
/// Metric measures beside the US ones, wherever none stand.
const ADD_METRIC: &str = "tamis.addMetric";
/// US measures beside the metric ones, wherever none stand.
const ADD_US: &str = "tamis.addUs";
/// Every mention in brackets.
const MARK_MENTIONS: &str = "tamis.markMentions";
/// A line for a test of today.
const RECORD_TEST: &str = "tamis.recordTest";

/// All commands.
pub fn offered() -> ExecuteCommandOptions {
    let commands = [SCALE, ADD_METRIC, ADD_US, MARK_MENTIONS, RECORD_TEST];
    ExecuteCommandOptions {
        commands: commands.map(str::to_owned).to_vec(),
        work_done_progress_options: Default::default(),
    }
}

/// What a command is about: its one argument.
#[derive(Debug, Deserialize)]
pub struct About {
    /// The document.
    pub uri: Url,
    /// Anywhere in the recipe.
    position: Position,
    /// For how many.
    to: Option<f64>,
}

/// Something to be done.
#[derive(Debug)]
pub struct Order {
    command: String,
    /// What it is about.
    pub about: About,
}

/// What is to be done by the editor, and what to say of it.
pub struct Done {
    edit: WorkspaceEdit,
    told: Option<String>,
}

impl Order {
    /// Reads what the editor asks.
    ///
    /// # Errors
    /// Where there is no such command, or its argument is not as it should be.
    pub fn read(params: ExecuteCommandParams) -> Result<Order> {
        let command = params.command;
        if !offered().commands.contains(&command) {
            return Err(Error::invalid_params(format!("There is no command {command}.")));
        }
        let wants = if command == SCALE { ", \"to\": NUMBER" } else { "" };
        let wrong = || {
            let form = format!("{{ \"uri\": …, \"position\": {{ \"line\": …, \"character\": … }}{wants} }}");
            Error::invalid_params(format!("{command} wants one argument: {form}"))
        };
        let mut arguments = params.arguments.into_iter();
        let about = arguments.next().and_then(|about| About::deserialize(about).ok()).ok_or_else(wrong)?;
        if command == SCALE && about.to.is_none() || arguments.next().is_some() {
            return Err(wrong());
        }
        Ok(Order { command, about })
    }

    /// The edits that carry it out.
    ///
    /// # Errors
    /// Where the editor cannot be told to edit, no recipe stands there, or there is nothing to do; in words.
    pub fn done(&self, document: &Opened, editor: &Editor) -> Result<Done> {
        if !editor.applies_edits {
            return Err(failed("This editor does not let a server change its text."));
        }
        let recipe = here(document, editor, self.about.position);
        let (start, recipe, _) = recipe.ok_or_else(|| failed("There is no recipe at the cursor."))?;
        let house = document.manuscript().map(|manuscript| manuscript.house()).ok_or_else(Error::internal_error)?;
        let all = |change| (assist::throughout(recipe, house, change), None);
        let (edits, told) = match self.command.as_str() {
            SCALE => {
                let wanted = Wanted::For(self.about.to.unwrap_or_default());
                let Scaled { edits, told } = assist::scale(recipe, house, wanted).map_err(|reason| failed(&reason))?;
                (edits, Some(told))
            }
            ADD_METRIC => all(Change::AddMetric),
            ADD_US => all(Change::AddCustomary),
            MARK_MENTIONS => all(Change::Mark),
            _ => (vec![assist::record_test(recipe, &today())], None),
        };
        if edits.is_empty() {
            return Err(failed("There is nothing to change: the recipe is so already."));
        }
        let edits: Vec<Edit> = edits.into_iter().map(|edit| edit.shifted(start)).collect();
        let edit = workspace_edit(document, editor, Converter::new(document, editor).text_edits(&edits));
        Ok(Done { edit, told })
    }
}

/// The day it is where the user is, as ISO 8601 writes it.
pub fn today() -> String {
    jiff::ZonedDateTime::now().date().to_string()
}

/// Has the editor make the edits, and tells what there is to tell. Nobody waits for this: some editors do one thing at a time.
pub async fn carry_out(client: Client, done: Done) {
    match client.apply_edit(done.edit).await {
        Ok(answer) if answer.applied => {
            if let Some(told) = done.told {
                client.show_message(MessageType::INFO, told).await;
            }
        }
        Ok(answer) => {
            let reason = answer.failure_reason.unwrap_or_else(|| "the editor gives no reason".to_owned());
            client.show_message(MessageType::ERROR, format!("The recipe was not changed: {reason}")).await;
        }
        // An editor that cannot do so has said it by itself.
        Err(_) => {}
    }
}

fn failed(reason: &str) -> Error {
    let mut error = Error::new(ErrorCode::ServerError(REQUEST_FAILED));
    error.message = reason.to_owned().into();
    error
}
