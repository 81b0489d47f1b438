//! `traywright pack` and `unpack`: a case with everything of its record in one file, and back.

use super::Changed;
use super::open::open;
use crate::desk::{Refusal, refused_by_disk, refused_pack};
use std::io::IsTerminal as _;
use std::path::Path;
use traywright_core::store::{self, is_sealed, read_beginning};
use traywright_core::text::Texts;

/// Where the passphrase may be, for programs that pack.
const VARIABLE: &str = "TRAYWRIGHT_PASSPHRASE";

pub(super) fn pack(file: &Path, kit: Option<&Path>, to: &Path, encrypt: bool) -> Changed {
    let texts = Texts::english();
    let opened = open(file)?;
    let passphrase = encrypt.then(|| passphrase(true)).transpose()?;
    let parts = store::pack(&opened.file, kit, to, passphrase.as_deref())
        .map_err(|fault| refused_pack(&fault, to))?;
    let id = if encrypt {
        "pack-done-sealed"
    } else {
        "pack-done"
    };
    let path = to.display().to_string();
    Ok(texts.counted(id, &[("parts", parts)], &[("file", &path)]))
}

pub(super) fn unpack(file: &Path, to: &Path) -> Changed {
    let beginning = read_beginning(file).map_err(|error| refused_by_disk(&error))?;
    let passphrase = is_sealed(&beginning)
        .then(|| passphrase(false))
        .transpose()?;
    let case = store::unpack(file, to, passphrase.as_deref())
        .map_err(|fault| refused_pack(&fault, file))?;
    let case = case.display().to_string();
    Ok(Texts::english().get("pack-undone", &[("file", &case)]))
}

/// The passphrase: out of the environment, typed unseen at the terminal, where it is new twice, or the first line of
/// the input.
fn passphrase(is_new: bool) -> Result<String, Refusal> {
    let texts = Texts::english();
    let failed = |error: std::io::Error| {
        Refusal(texts.get("pack-no-passphrase", &[("reason", &error.to_string())]))
    };
    let ask = |id| rpassword::prompt_password(texts.get(id, &[]) + ": ").map_err(failed);
    let given = match std::env::var(VARIABLE) {
        Ok(given) => given,
        Err(_) if std::io::stdin().is_terminal() => {
            let given = ask("pack-ask")?;
            if is_new && ask("pack-ask-again")? != given {
                return Err(Refusal(texts.get("pack-differ", &[])));
            }
            given
        }
        Err(_) => {
            let mut line = String::new();
            std::io::stdin().read_line(&mut line).map_err(failed)?;
            line.trim_end_matches(['\r', '\n']).to_owned()
        }
    };
    if given.is_empty() {
        return Err(Refusal(texts.get("pack-empty", &[])));
    }
    Ok(given)
}
