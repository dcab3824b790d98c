//! What the editor's user may turn off. It comes with `initialize`, with a change of the configuration, or is asked for.

use serde::{Deserialize, Serialize};
use serde_json::Value;
use tokio::sync::mpsc::WeakUnboundedSender;
use tower_lsp::Client;
use tower_lsp::lsp_types::ConfigurationItem;

use super::desk::Desk;
use super::mail::Mail;
use super::sheets::Request;

/// The section of an editor's configuration that is ours.
pub const SECTION: &str = "tamis";

/// What may be turned off; everything is on.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, Serialize)]
#[serde(default, rename_all = "camelCase")]
pub struct Settings {
    /// Which hints are shown beside the text.
    pub hints: Hints,
    /// Whether a line stands above each recipe.
    pub lenses: bool,
}

/// Which hints are shown beside the text.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, Serialize)]
#[serde(default, rename_all = "camelCase")]
pub struct Hints {
    /// Grams for cups that nothing restates.
    pub weights: bool,
    /// What a mention takes.
    pub shares: bool,
    /// When a step ends, on the clock of the method.
    pub clock: bool,
}

impl Default for Settings {
    fn default() -> Self {
        Settings { hints: Hints::default(), lenses: true }
    }
}

impl Default for Hints {
    fn default() -> Self {
        Hints { weights: true, shares: true, clock: true }
    }
}

impl Settings {
    /// Reads what an editor sends, with the name of the section around it or without. Nothing where it sends nothing, or what
    /// cannot be read.
    pub fn read(value: &Value) -> Option<Settings> {
        let own = value.get(SECTION).unwrap_or(value);
        own.is_object().then(|| Settings::deserialize(own).ok()).flatten()
    }
}

impl Desk {
    /// Shows what is now wanted, and nothing else.
    pub(super) fn configure(&mut self, settings: Settings) {
        let before = std::mem::replace(&mut self.editor.settings, settings);
        let now = &self.editor.settings;
        if self.editor.refreshes_hints && before.hints != now.hints {
            self.requests.push(Request::RefreshHints);
        }
        if self.editor.refreshes_lenses && before.lenses != now.lenses {
            self.requests.push(Request::RefreshLenses);
        }
    }
}

/// Asks the client for its configuration, and puts what it answers into the mail.
pub async fn fetch(client: Client, mail: WeakUnboundedSender<Mail>) {
    let item = ConfigurationItem { scope_uri: None, section: Some(SECTION.to_owned()) };
    let answer = client.configuration(vec![item]).await.unwrap_or_default();
    let settings = answer.first().and_then(Settings::read);
    // The desk may be gone by then; it does not wait for this.
    if let Some((settings, mail)) = settings.zip(mail.upgrade()) {
        let _ = mail.send(Mail::Configured(settings));
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn what_is_not_said_is_on() {
        let without = |hints: Hints| Settings { hints, lenses: true };
        let table = [
            (json!({}), Some(Settings::default())),
            (
                json!({ "tamis": { "hints": { "clock": false } } }),
                Some(without(Hints { clock: false, ..Hints::default() })),
            ),
            (
                json!({ "hints": { "weights": false }, "theirs": 1 }),
                Some(without(Hints { weights: false, ..Hints::default() })),
            ),
            (json!({ "lenses": false }), Some(Settings { lenses: false, ..Settings::default() })),
            (json!({ "lenses": "no" }), None),
            (json!(null), None),
            (json!([1]), None),
        ];
        for (sent, read) in table {
            assert_eq!(Settings::read(&sent), read, "{sent}");
        }
    }

    /// What is shown to the user of VS Code is what the server reads, and on or off as it is here. What is said of the extension's own
    /// parts the server does not read.
    #[test]
    fn the_extension_offers_every_setting_as_it_is() {
        let package: Value = serde_json::from_str(include_str!("../../../editors/vscode/package.json")).unwrap();
        let own = ["server", "trace", "typing", "preview", "statusBar"];
        let mut offered = json!({});
        for (name, property) in package["contributes"]["configuration"][0]["properties"].as_object().unwrap() {
            assert!(
                property["markdownDescription"].as_str().is_some_and(|text| text.len() > 20),
                "{name} says nothing"
            );
            let path = name.strip_prefix("tamis.").unwrap();
            match path.split_once('.') {
                Some((part, _)) if own.contains(&part) => {}
                Some((part, name)) => offered[part][name] = property["default"].clone(),
                None => offered[path] = property["default"].clone(),
            }
        }
        assert_eq!(serde_json::to_value(Settings::default()).unwrap(), offered);
    }
}
