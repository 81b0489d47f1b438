//! The headless commands: one file each, and here what they share.

mod approve;
mod arguments;
mod best;
mod check;
mod figures;
mod history;
mod kit;
mod list;
mod name_piece;
mod open;
mod order;
mod pack;
mod put_aside;
mod record;
mod sheet;
mod summary;
mod take_rules;
mod wear;

use crate::desk::Refusal;
use crate::window::NoWindow;
use arguments::{Arguments, Command};
use clap::Parser as _;
use clap::error::ErrorKind;
use std::ffi::OsString;
use std::io::Write;
use std::process::ExitCode;
use traywright_core::document::legible;
use traywright_core::text::Texts;

/// The end of a command.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Done; for a check: nothing is short or unknown.
    Done,
    /// A check found something short or unknown.
    Open,
    /// Something could not be read, written or understood.
    Failed,
    /// Done, but what was done could not be told where it was to be.
    Untold,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Done => Self::SUCCESS,
            Outcome::Open => Self::from(1),
            Outcome::Failed => Self::from(2),
            Outcome::Untold => Self::from(3),
        }
    }
}

type Ran = Result<Outcome, Refusal>;

/// The end of a command that changes something: what was done, to be told.
type Changed = Result<String, Refusal>;

/// Tells what was done. Where it cannot be told, that is said beside it: it is done all the same.
fn tell(changed: Changed, out: &mut dyn Write, err: &mut dyn Write) -> Ran {
    let done = changed?;
    let told = writeln!(out, "{done}").and_then(|()| out.flush());
    let Err(error) = told else {
        return Ok(Outcome::Done);
    };
    let args = [("reason", &*error.to_string()), ("done", &*done)];
    let told = Texts::english().get("cli-untold", &args);
    // Where nobody can be told anything, the exit status says it.
    writeln!(err, "{told}").unwrap_or_default();
    Ok(Outcome::Untold)
}

/// Runs the program with these arguments, the first of which is its own name.
pub fn run(
    arguments: impl IntoIterator<Item = OsString>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Outcome {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    let typed: Vec<String> = arguments
        .iter()
        .map(|one| one.to_string_lossy().into_owned())
        .collect();
    let ran = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => carry_out(arguments, out, err),
        // A word that is no command is taken for a case file, to which nothing more belongs.
        Err(error) if error.kind() == ErrorKind::ArgumentConflict => {
            Err(Refusal(Texts::english().get("cli-no-command", &[])))
        }
        Err(error) if error.use_stderr() => Err(Refusal(error.to_string().trim_end().to_owned())),
        Err(help) => write!(out, "{help}")
            .map(|()| Outcome::Done)
            .map_err(Refusal::from),
    };
    let flushed = |outcome| match outcome {
        Outcome::Untold => Ok(outcome),
        outcome => out.flush().map(|()| outcome).map_err(Refusal::from),
    };
    match ran.and_then(flushed) {
        Ok(outcome) => outcome,
        Err(Refusal(mut text)) => {
            // What was typed is quoted as it is nowhere else: it commands no terminal.
            for (raw, plain) in typed.iter().map(|raw| (raw, legible(raw))) {
                if *raw != plain {
                    text = text.replace(raw, &plain);
                }
            }
            // Nothing is left to be done where even this cannot be written.
            let _ = writeln!(err, "{text}");
            Outcome::Failed
        }
    }
}

fn carry_out(arguments: Arguments, out: &mut dyn Write, err: &mut dyn Write) -> Ran {
    match arguments.command {
        Some(Command::Figures { case, explain }) => figures::figures(&case, explain, out),
        Some(Command::List { folder }) => list::list(&folder, out),
        Some(Command::Check { case }) => check::check(&case, out),
        Some(Command::History { case, paper }) => history::history(&case, &paper, out),
        Some(Command::Record { case, pdf, paper }) => {
            record::record(&case, (pdf.as_deref(), paper.into()), out, err)
        }
        Some(Command::Sheet {
            case,
            to,
            paper,
            parts,
            readings,
        }) => tell(sheet::sheet(&case, &to, paper, &parts, readings), out, err),
        Some(Command::Approve { case, by, desk }) => {
            tell(approve::approve(&case, &by, desk.as_deref()), out, err)
        }
        Some(Command::PutAside { case, by, desk }) => {
            tell(put_aside::put_aside(&case, &by, desk.as_deref()), out, err)
        }
        Some(Command::Wear {
            kit,
            rebuild,
            forget,
            count,
        }) => {
            let from = wear::CountFrom {
                rebuild: &rebuild,
                forget,
                case: count.as_deref(),
            };
            wear::wear(&kit, &from, out)
        }
        Some(Command::NamePiece {
            case,
            drill,
            copy,
            mark,
            unknown,
            next,
            kit,
            by,
            desk,
        }) => {
            let named = name_piece::Named {
                drill: &drill,
                copy,
                mark: mark.as_deref(),
                unknown,
                next,
                kit: kit.as_deref(),
            };
            tell(
                name_piece::name(&case, &named, &by, desk.as_deref()),
                out,
                err,
            )
        }
        Some(Command::Pack {
            case,
            to,
            kit,
            encrypt,
        }) => tell(pack::pack(&case, kit.as_deref(), &to, encrypt), out, err),
        Some(Command::Unpack { pack, to }) => tell(pack::unpack(&pack, &to), out, err),
        Some(Command::TakeKit { case, kit }) => tell(kit::take(&case, &kit), out, err),
        Some(Command::TakeRules { case }) => tell(take_rules::take(&case), out, err),
        Some(Command::Order {
            problem,
            work,
            memory,
        }) => order::order(&problem, &order::budget(work, memory), out, err),
        None => {
            // Where a window can be opened, the rest happens there.
            let Err(none) = crate::window::show(arguments.case.as_deref()) else {
                return Ok(Outcome::Done);
            };
            let texts = Texts::english();
            let told = match &none {
                NoWindow::System(reason) => texts.get("cli-no-window", &[("reason", reason)]),
                NoWindow::Display => texts.get("cli-no-display", &[]),
            };
            if let Some(case) = arguments.case {
                // Why there is no window comes first, beside the answer and not within it; a case
                // that cannot be read is told alone.
                let mut summary = Vec::new();
                let outcome = summary::summary(&case, &mut summary)?;
                writeln!(err, "{told}\n")?;
                out.write_all(&summary)?;
                return Ok(outcome);
            }
            match none {
                NoWindow::System(_) => writeln!(err, "{told}\n")?,
                NoWindow::Display => writeln!(out, "{told}\n")?,
            }
            write!(out, "{}", arguments::help())?;
            Ok(Outcome::Done)
        }
    }
}
