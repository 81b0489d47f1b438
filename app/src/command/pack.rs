//! `traywright pack` and `unpack`: a case with everything of its record in one file, and back.

use super::Changed;
use super::open::open;
use crate::desk::{
    Answers, Refusal, own_desk, refused_by_disk, refused_pack, said_elsewhere, said_packed,
};
use crate::platform::{Desktop, now};
use std::io::IsTerminal as _;
use std::path::Path;
use traywright_core::case::read_case;
use traywright_core::store::{self, is_sealed, read_beginning, shown};
use traywright_core::text::Texts;

/// Where the passphrase may be, for programs that pack.
const VARIABLE: &str = "TRAYWRIGHT_PASSPHRASE";

pub(super) fn pack(file: &Path, kit: Option<&Path>, to: &Path, encrypt: bool) -> Changed {
    let texts = Texts::english();
    let opened = open(file)?;
    let passphrase = encrypt.then(|| passphrase(true)).transpose()?;
    let desk = own_desk(&Desktop::default()).ok();
    let now = (now(), desk.as_deref());
    let parts = store::pack(&opened.file, kit, to, passphrase.as_deref(), now)
        .map_err(|fault| refused_pack(&fault, to))?;
    let id = if encrypt {
        "pack-done-sealed"
    } else {
        "pack-done"
    };
    let path = shown(to);
    let mut told = vec![texts.counted(id, &[("parts", parts)], &[("file", &path)])];
    told.extend(said_elsewhere(
        &opened.file,
        &opened.case,
        &mut Answers::default(),
    ));
    Ok(told.join("\n"))
}

pub(super) fn unpack(file: &Path, to: &Path) -> Changed {
    let beginning = read_beginning(file).map_err(|error| refused_by_disk(&error))?;
    let passphrase = is_sealed(&beginning)
        .then(|| passphrase(false))
        .transpose()?;
    let refused = |fault| refused_pack(&fault, file);
    let read = store::read_pack(file, passphrase.as_deref()).map_err(refused)?;
    let unpacked = read.unpack(to).map_err(refused)?;
    let mut told = vec![Texts::english().get("pack-undone", &[("file", &shown(&unpacked))])];
    if let Ok(case) = read_case(read.case()) {
        told.extend(said_packed(
            read.packed(),
            &case,
            None,
            &mut Answers::default(),
        ));
    }
    Ok(told.join("\n"))
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
