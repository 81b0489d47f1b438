//! Time from the start of the program to the first frame that is seen: under `xvfb-run -a`, of
//! `target/release/traywright`, its start page and the case of six sites. Measured from outside:
//! the window is mapped, then its picture is asked for until it is not one even area.

#![expect(
    clippy::print_stdout,
    reason = "a benchmark tells its figures on the standard output"
)]

use std::error::Error;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use x11rb::connection::Connection;
use x11rb::protocol::Event;
use x11rb::protocol::xproto::{
    ChangeWindowAttributesAux, ConnectionExt as _, EventMask, ImageFormat, Window,
};
use x11rb::rust_connection::RustConnection;

/// Starts of each kind.
const TIMES: usize = 10;
/// After so long there is no first frame.
const LONGEST: Duration = Duration::from_secs(20);
/// Part of the window that is looked at, points: its corner and its size.
const LOOKED_AT: (i16, i16, u16, u16) = (0, 0, 600, 120);

type Done<T> = Result<T, Box<dyn Error>>;

fn main() -> Done<()> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let program = root.join("target/release/traywright");
    if std::env::var_os("DISPLAY").is_none() || !program.exists() {
        println!("first frame: not measured; needs xvfb-run and a release build");
        return Ok(());
    }
    // One connection throughout: a display without any client begins anew and throws out who comes.
    let connection = listening()?;
    let settings = tempfile::tempdir()?;
    let case = root.join("demo/full-arch-upper.json");
    for (name, case) in [("start page", None), ("case of 6 sites", Some(case))] {
        let mut taken = Vec::new();
        for _ in 0..TIMES {
            taken.push(first_frame(
                &connection,
                &program,
                case.as_ref(),
                settings.path(),
            )?);
        }
        taken.sort();
        let (least, middle, most) = (taken[0], taken[TIMES / 2], taken[TIMES - 1]);
        println!("first frame, {name}: {middle:.0?} (from {least:.0?} to {most:.0?})");
    }
    Ok(())
}

/// A connection that is notified of every window that is mapped.
fn listening() -> Done<RustConnection> {
    let (connection, screen) = x11rb::connect(None)?;
    let root = connection.setup().roots[screen].root;
    let listen = ChangeWindowAttributesAux::new().event_mask(EventMask::SUBSTRUCTURE_NOTIFY);
    connection
        .change_window_attributes(root, &listen)?
        .check()?;
    Ok(connection)
}

/// The time to the first frame of one start.
fn first_frame(
    connection: &RustConnection,
    program: &Path,
    case: Option<&PathBuf>,
    settings: &Path,
) -> Done<Duration> {
    // What was told of the start before is over.
    while connection.poll_for_event()?.is_some() {}
    let begun = Instant::now();
    let mut child = Command::new(program)
        .args(case)
        .env("XDG_CONFIG_HOME", settings)
        .env_remove("WAYLAND_DISPLAY")
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()?;
    let taken = seen(connection, begun);
    end(&mut child)?;
    taken
}

fn seen(connection: &RustConnection, begun: Instant) -> Done<Duration> {
    let mut mapped = None;
    while begun.elapsed() < LONGEST {
        while let Some(event) = connection.poll_for_event()? {
            if let Event::MapNotify(event) = event {
                mapped = Some(event.window);
            }
        }
        if let Some(window) = mapped
            && is_drawn(connection, window)
        {
            return Ok(begun.elapsed());
        }
        std::thread::sleep(Duration::from_millis(1));
    }
    Err("no frame was seen".into())
}

/// True if anything is drawn in the window, and its picture can be asked for.
fn is_drawn(connection: &RustConnection, window: Window) -> bool {
    let (x, y, width, height) = LOOKED_AT;
    let asked = connection.get_image(ImageFormat::Z_PIXMAP, window, x, y, width, height, !0);
    let image = asked.ok().and_then(|asked| asked.reply().ok());
    image.is_some_and(|image| {
        let mut pixels = image.data.chunks_exact(4);
        let first = pixels.next();
        pixels.any(|pixel| Some(pixel) != first)
    })
}

fn end(child: &mut Child) -> Done<()> {
    child.kill()?;
    child.wait()?;
    Ok(())
}
