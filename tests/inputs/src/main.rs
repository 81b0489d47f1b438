//! `cargo run --release -p traywright-inputs -- 1000000` gives the readers so many inputs together, each reader in a
//! process of its own; with names behind the number those readers alone. It ends with 1 where one of them panics, takes
//! more than a second of work for an input, or needs more than 1 GiB.
//!
//! The inputs are others in each run; `PROPTEST_RNG_SEED` asks for those of one.

#![expect(
    clippy::print_stdout,
    reason = "a harness tells its figures on the standard output"
)]

use std::path::Path;
use std::process::{Command, ExitCode};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};
use traywright_inputs::Reader;
use traywright_samples::inputs::read_many;

/// The longest work for one input.
const LONGEST: Duration = Duration::from_secs(1);
/// After this an input is taken to hang.
const HANGS: Duration = Duration::from_mins(2);
/// The most memory of a process, kB.
const MOST_KB: u64 = 1 << 20;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    if let [one, reader, inputs] = &words[..]
        && one == "one"
    {
        return of_one(reader, inputs.parse().expect("a number"));
    }
    let asked = words.first().and_then(|many| many.parse::<u32>().ok());
    let Some(inputs) = asked else {
        println!("say how many inputs");
        return ExitCode::from(2);
    };
    let named = &words[1..];
    let mut readers = Reader::all();
    readers.retain(|one| named.is_empty() || named.iter().any(|name| name == one.name));
    let each = inputs.div_ceil(u32::try_from(readers.len()).unwrap_or(1).max(1));
    let program = std::env::current_exe().expect("the system tells");
    // All at once, so that they share the processors.
    let begin = |reader: &Reader| {
        let mut one = Command::new(&program);
        one.args(["one", reader.name, &each.to_string()]).spawn()
    };
    let at_work: Vec<_> = readers.iter().map(begin).collect();
    let ends = at_work.into_iter().map(|begun| begun?.wait());
    let ended: Vec<bool> = ends
        .map(|ended| ended.is_ok_and(|status| status.success()))
        .collect();
    if ended.iter().all(|is_well| *is_well) {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}

/// The input that is being read, and since when.
type Reading = Arc<Mutex<Option<(Instant, Vec<u8>)>>>;

fn of_one(name: &str, inputs: u32) -> ExitCode {
    let mut readers = Reader::all().into_iter();
    let reader = readers.find(|one| one.name == name).expect("a reader");
    let reading = Reading::default();
    watch(name, &reading);
    let set = |input| *reading.lock().unwrap_or_else(PoisonError::into_inner) = input;
    let longest = Mutex::new(Duration::ZERO);
    let begun = Instant::now();
    read_many(name, inputs, |bytes| {
        set(Some((Instant::now(), bytes.to_vec())));
        let one = Instant::now();
        reader.read(bytes);
        let took = one.elapsed();
        set(None);
        let mut longest = longest.lock().unwrap_or_else(PoisonError::into_inner);
        *longest = took.max(*longest);
        if took > LONGEST {
            // The machine may have been busy with something else: the work alone counts.
            let before = work();
            reader.read(bytes);
            let took = work().saturating_sub(before);
            assert!(took < LONGEST, "{took:?} for {} bytes", bytes.len());
        }
    });
    let seconds = begun.elapsed().as_secs_f64();
    let longest = longest
        .lock()
        .unwrap_or_else(PoisonError::into_inner)
        .as_secs_f64();
    let most = peak_kb();
    let memory = most.map_or("unknown".to_owned(), |kb| format!("{} MB", kb / 1024));
    println!(
        "{name}: {inputs} inputs in {seconds:.0} s, {:.0} a second; longest {longest:.3} s, at most {memory}",
        f64::from(inputs) / seconds
    );
    if most.is_some_and(|kb| kb > MOST_KB) {
        println!("{name}: that is more than 1 GiB");
        return ExitCode::FAILURE;
    }
    ExitCode::SUCCESS
}

/// Ends the process where one input is read for too long, and keeps it.
fn watch(name: &str, reading: &Reading) {
    let (name, reading) = (name.to_owned(), Arc::clone(reading));
    std::thread::spawn(move || {
        loop {
            std::thread::sleep(Duration::from_secs(1));
            let now = reading.lock().unwrap_or_else(PoisonError::into_inner);
            if let Some((since, bytes)) = &*now
                && since.elapsed() > HANGS
            {
                let file = std::env::temp_dir().join(format!("{name}-hangs"));
                let kept = std::fs::write(&file, bytes);
                println!(
                    "{name}: an input hangs, kept as {}: {kept:?}",
                    file.display()
                );
                std::process::exit(1);
            }
        }
    });
}

/// The work of this thread so far, by the system; nothing where it does not tell.
fn work() -> Duration {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    let nanoseconds = told.split(' ').next().and_then(|first| first.parse().ok());
    Duration::from_nanos(nanoseconds.unwrap_or(0))
}

/// The most memory that this process had, by the system.
fn peak_kb() -> Option<u64> {
    let told = std::fs::read_to_string(Path::new("/proc/self/status")).ok()?;
    let line = told.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.trim().strip_suffix(" kB")?.parse().ok()
}
