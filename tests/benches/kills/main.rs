//! What a program that is killed leaves on the disk. Not a measure of time: a harness that is too long for the test
//! command. `cargo bench -p traywright-tests --bench kills -- 10000` begins a writer of each kind as a process of its own,
//! kills it at a random moment, looks at what it left, and begins again, until there were so many kills of each kind;
//! then two desks write at once, unharmed, so many edits and events together.
//!
//! With `calls` instead of a number each system call of each writer is failed in turn (`strace` is needed for that), with
//! `bytes` each byte of two cases, their events and a journal is flipped (with a number behind it one in so many), with
//! `places` each writer meets a full disk, one for reading only, a folder that is gone and paths that are too long. Names of
//! writers behind the number have those alone killed; with `desks` and a number desks write alone, two by one clock and three
//! whose clocks are hours apart. With `wear` and a number so many days are closed and counted into the ledger of wear by
//! programs that are killed. With `day` and a number days of surgery are worked in the window by programs that are killed.
//!
//! A writer says on its output what it was told is written. All of that has to be there, whole.

#![expect(
    clippy::print_stdout,
    reason = "a harness tells its figures on the standard output"
)]

mod bytes;
mod calls;
mod child;
mod day;
mod desks;
mod look;
mod places;
mod wear;

use std::error::Error;
use std::io::{BufRead as _, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// The kinds of writers.
const KINDS: [&str; 4] = ["save", "event", "journal", "pack"];
/// The longest life of a writer at first, µs: some are killed before their first write, some after dozens. Where several
/// in a row die before it, on a slow machine or without optimising, it grows.
const LONGEST_US: u64 = 60_000;
/// The longest that it grows to, µs.
const MOST_US: u64 = 8_000_000;
/// After so many in a row that died before their first write it is doubled.
const IN_A_ROW: usize = 3;
/// By how many hours the clocks of three desks are ahead.
const HOURS: [i64; 3] = [0, -7, 5];
/// Kills of each kind where no number is given.
const KILLS: usize = 100;

type Done<T> = Result<T, Box<dyn Error>>;

fn main() -> Done<()> {
    let mut arguments = std::env::args().skip(1);
    let first = arguments.next().unwrap_or_default();
    if first == "child" {
        let kind = arguments.next().unwrap_or_default();
        let folder = arguments.next().unwrap_or_default();
        return child::write(&kind, Path::new(&folder));
    }
    if first == "desk" {
        let [site, folder, times, hours] = [(); 4].map(|()| arguments.next().unwrap_or_default());
        let (site, times, hours) = (site.parse()?, times.parse()?, hours.parse()?);
        return desks::desk(site, Path::new(&folder), times, hours);
    }
    if first == "once" {
        let kind = arguments.next().unwrap_or_default();
        let folder = arguments.next().unwrap_or_default();
        let before: fn(&Path) -> Done<()> = match arguments.next().as_deref() {
            Some("vanishes") => places::vanish,
            _ => |_| Ok(()),
        };
        return child::once(&kind, Path::new(&folder), before);
    }
    if first == "within" {
        return places::within();
    }
    let words: Vec<String> = std::iter::once(first).chain(arguments).collect();
    let numbers = || words.iter().filter_map(|one| one.parse::<usize>().ok());
    let kills = numbers().next().unwrap_or(KILLS);
    let asks = |word: &str| words.iter().any(|one| one == word);
    if asks("day") {
        return day::series(kills);
    }
    if asks("wear") {
        return wear::series(kills);
    }
    if asks("calls") {
        return calls::all(&words);
    }
    if asks("bytes") {
        return bytes::all(numbers().next().unwrap_or(1).max(1));
    }
    if asks("places") {
        return places::all();
    }
    let named: Vec<&str> = KINDS.into_iter().filter(|kind| asks(kind)).collect();
    for kind in &named {
        series(kind, kills)?;
    }
    if named.is_empty() && !asks("desks") {
        for kind in KINDS {
            series(kind, kills)?;
        }
    }
    if named.is_empty() {
        desks::at_once(&[0, 0], kills)?;
        desks::at_once(&HOURS, kills)?;
    }
    Ok(())
}

/// Kills writers of a kind and looks at what each left. What one left is what the next begins with.
fn series(kind: &str, kills: usize) -> Done<()> {
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
    child::prepare(folder.path())?;
    let begun = Instant::now();
    let mut chance = Chance(0x9e37_79b9_7f4a_7c15);
    let (mut told, mut without, mut before) = (0, 0, 0);
    let (mut longest, mut in_a_row) = (LONGEST_US, 0);
    for _ in 0..kills {
        let life = Duration::from_micros(chance.below(longest));
        let acknowledged = killed_after(kind, folder.path(), life)?;
        told += acknowledged.len();
        without += usize::from(acknowledged.is_empty());
        in_a_row = if acknowledged.is_empty() {
            in_a_row + 1
        } else {
            0
        };
        if in_a_row == IN_A_ROW {
            (longest, in_a_row) = ((longest * 2).min(MOST_US), 0);
        }
        look::at(kind, folder.path(), &acknowledged, &mut before)?;
    }
    if told == 0 {
        return Err(
            format!("{kind}: no writer came to its first write, so nothing is shown").into(),
        );
    }
    let took = begun.elapsed().as_secs();
    println!(
        "{kind}: {kills} kills in {took} s, {without} before anything was written; {told} writes said to be done, all there"
    );
    Ok(())
}

fn tell(line: &str) {
    println!("{line}");
}

/// What a writer said was written before it was killed.
fn killed_after(kind: &str, folder: &Path, life: Duration) -> Done<Vec<String>> {
    let mut writer = Command::new(std::env::current_exe()?)
        .args(["child", kind])
        .arg(folder)
        .stdout(Stdio::piped())
        .spawn()?;
    let output = writer.stdout.take().ok_or("no output")?;
    let mut lines = BufReader::new(output).lines();
    // It lives from when it is ready.
    let ready = lines.next().transpose()?;
    assert_eq!(ready.as_deref(), Some("ready"), "{kind} could not begin");
    std::thread::sleep(life);
    writer.kill()?;
    writer.wait()?;
    // A line that was cut off was not said.
    let mut said = lines.collect::<Result<Vec<String>, _>>()?;
    said.retain(|line| line.ends_with('.'));
    for line in &mut said {
        line.pop();
    }
    Ok(said)
}

/// Numbers by chance, the same in every run (`SplitMix64`).
struct Chance(u64);

impl Chance {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (z ^ (z >> 31)) % most
    }
}
