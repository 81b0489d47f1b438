//! The program: see the library of the same name.

use std::process::ExitCode;

fn main() -> ExitCode {
    let mut out = std::io::stdout().lock();
    let mut err = std::io::stderr().lock();
    traywright::run(std::env::args_os(), &mut out, &mut err).into()
}
