//! Tells Zed how to start the language server of recipe manuscripts.

use zed_extension_api::{self as zed, Command, LanguageServerId, Result, Worktree, settings::LspSettings};

struct Tamis;

impl zed::Extension for Tamis {
    fn new() -> Self {
        Tamis
    }

    fn language_server_command(&mut self, server: &LanguageServerId, worktree: &Worktree) -> Result<Command> {
        let settings = LspSettings::for_worktree(server.as_ref(), worktree).ok();
        let chosen = settings.and_then(|settings| settings.binary).and_then(|binary| binary.path);
        let program = chosen.or_else(|| worktree.which("tamis")).ok_or_else(|| {
            "The program tamis is not on the PATH. Put it there, or say where it is in the settings: \
             \"lsp\": { \"tamis\": { \"binary\": { \"path\": \"/where/it/is/tamis\" } } }"
                .to_owned()
        })?;
        Ok(Command { command: program, args: vec!["lsp".to_owned()], env: worktree.shell_env() })
    }
}

zed::register_extension!(Tamis);
