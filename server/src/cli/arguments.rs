//! What may be typed behind `tamis`.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use clap_complete::Shell;

/// Checks a recipe manuscript the way a compiler checks a program.
#[derive(Debug, Parser)]
#[command(name = "tamis", version, max_term_width = 100, subcommand_required = true, arg_required_else_help = true)]
pub struct Arguments {
    /// What is to be done.
    #[command(subcommand)]
    pub command: Command,
}

/// One for each thing that `tamis` does.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Look for what a cook would trip over
    ///
    /// Exits with 0 when nothing is wrong, 1 when a recipe holds an error, 2 when something could not be read.
    Check {
        #[command(flatten)]
        what: Checking,
        /// Mend what needs no decision, in the files, and look at what is left
        #[arg(long)]
        fix: bool,
        /// With --fix: show what would be mended, and change nothing
        #[arg(long, requires = "fix")]
        diff: bool,
        /// Write down what is found now, by check and file, so that later only what is new is told; into
        /// tamis-baseline.toml beside the tamis.toml, unless a file is given
        #[arg(long, value_name = "FILE", num_args = 0..=1, require_equals = true)]
        #[arg(conflicts_with_all = ["fix", "strict", "statistics", "baseline", "output"])]
        write_baseline: Option<Option<PathBuf>>,
        /// Go on looking whenever a file changes, until Ctrl-C
        #[arg(long, conflicts_with_all = ["fix", "write_baseline"])]
        watch: bool,
    },
    /// Lay manuscripts out: spaces, blank lines, the numbers of steps; no word is changed
    ///
    /// Files are changed in place; what comes in on standard input goes out again laid out. Exits with 0 when
    /// all is done, 2 when something could not be read or written; with --check or --diff, with 1 when a
    /// manuscript is laid out otherwise.
    Format {
        /// Manuscripts, folders of manuscripts, or - for standard input
        #[arg(value_name = "PATH", default_value = ".")]
        paths: Vec<PathBuf>,
        /// Change nothing; tell which manuscripts are laid out otherwise
        #[arg(long)]
        check: bool,
        /// Change nothing; show what would be changed
        #[arg(long)]
        diff: bool,
    },
    /// Print manuscripts with every recipe for more or for fewer
    ///
    /// Amounts follow in list, method and yield; times, temperatures and vessels stay, and standard error names those
    /// to look at. Exits with 0 when all is done, 2 when something could not be read, scaled or written.
    Scale {
        /// Manuscripts, folders of manuscripts, or - for standard input
        #[arg(value_name = "PATH", required = true)]
        paths: Vec<PathBuf>,
        /// For how many every recipe is to be: 12
        #[arg(long, value_name = "NUMBER", required_unless_present = "by", conflicts_with = "by")]
        serves: Option<f64>,
        /// How many times as much it is to be: 2, or 0.5
        #[arg(long, value_name = "TIMES")]
        by: Option<f64>,
        /// Print only what would be changed
        #[arg(long, conflicts_with = "write")]
        diff: bool,
        /// Print nothing; change the files in place
        #[arg(long)]
        write: bool,
    },
    /// Show, recipe by recipe, which step uses which ingredient
    Uses {
        #[command(flatten)]
        what: What,
    },
    /// Tell what is known of a food, and what an amount of it comes to in other measures
    ///
    /// The amount may also stand before the food, and words like "sifted" or "packed" beside it:
    /// tamis facts 1 1/2 cups sifted flour. What the tamis.toml above this folder tells of foods counts.
    Facts {
        /// The food: egg, rye flour, brown sugar
        #[arg(value_name = "FOOD")]
        food: String,
        /// How much of it: 1 1/2 cups, 200 g, 2 large
        #[arg(value_name = "AMOUNT")]
        amount: Vec<String>,
        /// The form of the answer
        #[arg(long, value_enum, value_name = "FORM", default_value_t = Output::Text)]
        output: Output,
    },
    /// Tell what a check looks for, why it matters, and how to mend what it finds
    Explain {
        /// The name of a check, as it stands in brackets before a message; without it, all of them are listed
        code: Option<String>,
    },
    /// Print the JSON Schema of the house style sheet, for editors that complete tamis.toml
    Schema,
    /// Print what a shell needs to complete the commands of Tamis
    ///
    /// For bash: source <(tamis completions bash); other shells read it from a file.
    Completions {
        /// The shell
        #[arg(value_enum)]
        shell: Shell,
    },
    /// Serve an editor over standard input and output (the editor starts this by itself)
    Lsp {
        /// Some editors say how they speak; there is only this way
        #[arg(long, hide = true)]
        stdio: bool,
    },
}

/// What is to be checked, and how it is told.
#[derive(Debug, Args)]
pub struct Checking {
    /// Manuscripts, folders of manuscripts, or - for standard input
    #[arg(value_name = "PATH", default_value = ".")]
    pub paths: Vec<PathBuf>,
    /// The form of the answer
    #[arg(long, value_enum, value_name = "FORM", default_value_t = Form::Text)]
    pub output: Form,
    /// Exit with 1 for whatever is found, not only for errors
    #[arg(long)]
    pub strict: bool,
    /// Tell how often each check found something, and not where
    #[arg(long)]
    pub statistics: bool,
    /// Pass over what this file knows; without it, over what a tamis-baseline.toml beside the tamis.toml knows
    #[arg(long, value_name = "FILE")]
    pub baseline: Option<PathBuf>,
}

/// The form in which findings are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Form {
    /// To be read, with the place marked
    Text,
    /// For another program
    Json,
    /// For code scanning: SARIF 2.1.0
    Sarif,
    /// For a workflow on GitHub, which shows them beside a change
    Github,
    /// One line each, for the error list of an editor
    Line,
}

/// The manuscripts to read and the form of the answer.
#[derive(Debug, Args)]
pub struct What {
    /// Manuscripts, folders of manuscripts, or - for standard input
    #[arg(value_name = "PATH", default_value = ".")]
    pub paths: Vec<PathBuf>,
    /// The form of the answer
    #[arg(long, value_enum, value_name = "FORM", default_value_t = Output::Text)]
    pub output: Output,
}

/// The form of an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Output {
    /// To be read
    Text,
    /// For another program
    Json,
}
