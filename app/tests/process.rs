//! The program as a process: exit status, and what goes to which stream.

// Marked as a test module so that the lints see the helpers in it as tests.
#[cfg(test)]
mod process {
    use std::path::PathBuf;
    use std::process::{Command, Output};

    fn demo(name: &str) -> PathBuf {
        let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo");
        PathBuf::from(demo).join(format!("{name}.json"))
    }

    fn ran(arguments: &[&str], case: &str) -> Output {
        Command::new(env!("CARGO_BIN_EXE_traywright"))
            .args(arguments)
            .arg(demo(case))
            .output()
            .unwrap()
    }

    #[test]
    fn the_exit_status_is_0_1_or_2() {
        for (arguments, case, status) in [
            (&["check"][..], "one-premolar", 0),
            (&["check"], "two-molars", 1),
            (&["check"], "lost", 2),
            (&["figures"], "two-molars", 0),
            (&["figures"], "kit", 2),
            (&["record"], "two-molars", 0),
            (&["record"], "kit", 2),
            (&["record"], "lost", 2),
            (&["figures", "--explane"], "two-molars", 2),
            (
                &["approve", "--by", "RT", "--desk", "desk"],
                "two-molars",
                2,
            ),
        ] {
            let ran = ran(arguments, case);
            assert_eq!(ran.status.code(), Some(status), "{arguments:?} {case}");
            let (out, err) = (ran.stdout.is_empty(), ran.stderr.is_empty());
            assert_eq!(
                (out, err),
                (status == 2, status != 2),
                "{arguments:?} {case}"
            );
        }
    }

    /// A case, its record or any other file is never taken for the place of a PDF.
    #[test]
    fn a_sheet_never_replaces_what_is_no_pdf() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        let case = at("case.json");
        std::fs::copy(demo("one-premolar"), &case).unwrap();
        std::fs::copy(demo("two-molars"), at("other.json")).unwrap();
        let run = |arguments: &[&std::path::Path]| {
            Command::new(env!("CARGO_BIN_EXE_traywright"))
                .args(arguments)
                .output()
                .unwrap()
        };
        let approve = ["approve", "--by", "RT", "--desk", "desk"].map(std::path::Path::new);
        let approve: Vec<&std::path::Path> = approve.into_iter().chain([&*case]).collect();
        assert!(run(&approve).status.success());
        let events = at("case.signed").join("desk.events.jsonl");
        for to in [&case, &at("other.json"), &events] {
            let before = std::fs::read(to).unwrap();
            let [sheet, option] = ["sheet", "--to"].map(std::path::Path::new);
            let ran = run(&[sheet, &case, option, to]);
            assert_eq!(ran.status.code(), Some(2), "{}", to.display());
            assert_eq!(std::fs::read(to).unwrap(), before, "{}", to.display());
        }
    }

    /// A reader that goes away, such as a pager: an end without a panic.
    #[cfg(unix)]
    #[test]
    fn a_closed_pipe_is_no_panic() {
        use std::process::Stdio;
        let mut child = Command::new(env!("CARGO_BIN_EXE_traywright"))
            .arg("figures")
            .arg(demo("full-arch-upper"))
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        let ended = child.wait_with_output().unwrap();
        let err = String::from_utf8(ended.stderr).unwrap();
        assert!(!err.contains("panicked"), "{err}");
        assert_eq!(ended.status.code(), Some(2), "{err}");
    }

    /// A case of its own, and a user without settings.
    #[cfg(target_os = "linux")]
    struct Alone {
        folder: tempfile::TempDir,
        case: PathBuf,
    }

    #[cfg(target_os = "linux")]
    impl Alone {
        fn new() -> Self {
            let folder = tempfile::tempdir().unwrap();
            let case = folder.path().join("case.json");
            std::fs::copy(demo("one-premolar"), &case).unwrap();
            Self { folder, case }
        }

        fn command(&self, arguments: &[&str]) -> Command {
            let mut command = Command::new(env!("CARGO_BIN_EXE_traywright"));
            command.args(arguments).current_dir(self.folder.path());
            command.env("XDG_CONFIG_HOME", self.folder.path().join("config"));
            command
        }

        /// Runs it with an output that takes nothing.
        fn with_output_full(&self, arguments: &[&str]) -> (Option<i32>, String) {
            let full = std::fs::File::options().write(true).open("/dev/full");
            let ran = self
                .command(arguments)
                .stdout(full.unwrap())
                .output()
                .unwrap();
            (ran.status.code(), String::from_utf8(ran.stderr).unwrap())
        }

        fn recorded(&self) -> usize {
            let signed = std::fs::read_dir(self.folder.path().join("case.signed"));
            let files = signed
                .into_iter()
                .flatten()
                .flatten()
                .map(|entry| entry.path());
            let logs = files.filter(|file| file.extension().is_some_and(|e| e == "jsonl"));
            let lines = |file: PathBuf| std::fs::read_to_string(file).unwrap().lines().count() - 1;
            logs.map(lines).sum()
        }
    }

    /// What was done is told beside it, and by the exit status; what only answers changes nothing.
    #[cfg(target_os = "linux")]
    #[test]
    fn where_the_answer_cannot_be_written_it_is_told_what_was_done() {
        let alone = Alone::new();
        let done = "What follows was done; only this answer could not be written";
        let (status, err) = alone.with_output_full(&["approve", "case.json", "--by", "RT"]);
        assert_eq!((status, alone.recorded()), (Some(3), 1), "{err}");
        assert!(err.starts_with(done) && err.contains("by RT"), "{err}");
        let (status, err) = alone.with_output_full(&["sheet", "case.json", "--to", "case.pdf"]);
        assert_eq!(status, Some(3), "{err}");
        assert!(err.starts_with(done) && err.contains("case.pdf"), "{err}");
        assert!(alone.folder.path().join("case.pdf").exists());
        let kit = demo("kit");
        let kit = kit.to_str().unwrap();
        let (status, err) = alone.with_output_full(&["take-kit", "case.json", "--kit", kit]);
        assert_eq!(status, Some(3), "{err}");
        let (status, err) = alone.with_output_full(&["put-aside", "case.json", "--by", "RT"]);
        assert_eq!(status, Some(3), "{err}");
        let before = std::fs::read(&alone.case).unwrap();
        for answers in ["check", "figures"] {
            let (status, err) = alone.with_output_full(&[answers, "case.json"]);
            assert_eq!(status, Some(2), "{answers}: {err}");
            assert!(err.starts_with("The answer could not be written"), "{err}");
        }
        assert_eq!(alone.recorded(), 1);
        assert_eq!(std::fs::read(&alone.case).unwrap(), before);
    }

    /// Two desks of one name would write one file. Each gets a name of its own, and keeps it.
    #[cfg(target_os = "linux")]
    #[test]
    fn a_desk_has_a_name_of_its_own_before_its_first_event() {
        let alone = Alone::new();
        let names = || {
            let signed = std::fs::read_dir(alone.folder.path().join("case.signed"));
            let names = signed
                .into_iter()
                .flatten()
                .flatten()
                .map(|entry| entry.file_name());
            let names = names.map(|name| name.into_string().unwrap());
            let mut names: Vec<String> = names.filter(|name| name.ends_with("jsonl")).collect();
            names.sort();
            names
        };
        let approve = |by| {
            alone
                .command(&["approve", "case.json", "--by", by])
                .output()
        };
        for by in ["RT", "MK"] {
            assert!(approve(by).unwrap().status.success());
            assert_eq!(names().len(), 1, "{:?}", names());
        }
        assert!(names()[0].starts_with("desk-"), "{:?}", names());
        // Another user, and one whose settings nobody can keep.
        std::fs::rename(
            alone.folder.path().join("config"),
            alone.folder.path().join("other"),
        )
        .unwrap();
        assert!(approve("MK").unwrap().status.success());
        assert_eq!(names().len(), 2, "{:?}", names());
        std::fs::remove_dir_all(alone.folder.path().join("config")).unwrap();
        std::fs::write(alone.folder.path().join("config"), b"a file").unwrap();
        let refused = approve("MK").unwrap();
        assert_eq!(refused.status.code(), Some(2));
        let err = String::from_utf8(refused.stderr).unwrap();
        assert!(
            err.contains("Nothing was recorded; give the desk's name"),
            "{err}"
        );
        assert_eq!(names().len(), 2, "{:?}", names());
    }

    /// Also what is beside them for a moment: the system is asked what it was told when each file was made.
    #[cfg(unix)]
    #[test]
    fn what_is_written_beside_a_private_case_is_private() {
        use std::os::unix::fs::PermissionsExt as _;
        let alone = Alone::new();
        std::fs::set_permissions(&alone.case, std::fs::Permissions::from_mode(0o600)).unwrap();
        for arguments in [
            &["approve", "case.json", "--by", "RT"][..],
            &["sheet", "case.json", "--to", "case.pdf"],
        ] {
            assert!(alone.command(arguments).output().unwrap().status.success());
        }
        let mut folders = vec![alone.folder.path().to_owned()];
        let mut files = 0;
        while let Some(folder) = folders.pop() {
            for entry in std::fs::read_dir(folder).unwrap().flatten() {
                let about = entry.metadata().unwrap();
                assert_eq!(about.permissions().mode() & 0o077, 0, "{:?}", entry.path());
                if about.is_dir() {
                    folders.push(entry.path());
                } else {
                    files += 1;
                }
            }
        }
        assert_eq!(files, 5, "case, PDF, events, their lock, settings");
    }

    /// That folder is of all users. Where it is not there at all everything goes as usual, so that nobody needs it.
    #[cfg(target_os = "linux")]
    #[test]
    fn nothing_is_put_into_the_folder_for_temporary_files() {
        let alone = Alone::new();
        let temporary = alone.folder.path().join("temporary");
        let kit = demo("kit");
        let kit = kit.to_str().unwrap();
        for (arguments, status) in [
            (&["check", "case.json"][..], 0),
            (&["figures", "case.json"], 0),
            (&["take-kit", "case.json", "--kit", kit], 0),
            (&["take-kit", "case.json", "--kit", "case.json"], 2),
            (&["approve", "case.json", "--by", "RT"], 0),
            (&["sheet", "case.json", "--to", "case.pdf"], 0),
            (&["sheet", "case.json", "--to", "gone/case.pdf"], 2),
            (&["sheet", "case.json", "--to", "case.json"], 2),
            (&["history", "case.json"], 0),
            (&["pack", "case.json", "--to", "case.pack", "--encrypt"], 0),
            (&["unpack", "case.pack", "--to", "again"], 0),
            (&["unpack", "case.pack", "--to", "again"], 2),
            (&["put-aside", "case.json", "--by", "RT"], 0),
        ] {
            let ran = alone
                .command(arguments)
                .env("TMPDIR", &temporary)
                .env("TRAYWRIGHT_PASSPHRASE", "seven words")
                .output()
                .unwrap();
            let err = String::from_utf8_lossy(&ran.stderr).into_owned();
            assert_eq!(ran.status.code(), Some(status), "{arguments:?} {err}");
        }
        assert!(!temporary.exists());
    }

    /// A name that would command the terminal is told, and commands nothing.
    #[cfg(target_os = "linux")]
    #[test]
    fn a_name_is_never_printed_as_a_command_to_the_terminal() {
        let alone = Alone::new();
        let name = "a\u{1b}[31m\nApproved\u{202e}";
        std::fs::copy(
            &alone.case,
            alone.folder.path().join(format!("{name}.json")),
        )
        .unwrap();
        let (pack, pdf) = (&*format!("{name}.pack"), &*format!("{name}.pdf"));
        let (case, to) = (&*format!("{name}.json"), &*format!("{name}-to"));
        for (arguments, status) in [
            (&["pack", "case.json", "--to", pack][..], 0),
            (&["pack", "case.json", "--to", pack], 2),
            (&["sheet", "case.json", "--to", pdf, "--parts", "form"], 0),
            (&["sheet", "case.json", "--to", case], 2),
            (&["unpack", pack, "--to", to], 0),
            (&["unpack", pack, "--to", to], 2),
            (&["unpack", pdf, "--to", "x"], 2),
            (&["check", pack], 2),
            (&["check", name], 2),
            (&["check", case], 0),
            (&["list", name], 2),
            (&["list", "."], 0),
            (&["approve", case, "--by", name, "--desk", "d"], 2),
            (&["approve", case, "--by", "RT", "--desk", name], 2),
            (&["figures", "case.json", "--explain", name], 2),
            (&["history", "case.json", "--paper", name], 2),
            (&["take-kit", "case.json", "--kit", name], 2),
            (&["order", name], 2),
            (&[name], 2),
            (&["sheet", "case.json", "--to", "x.pdf", name], 2),
        ] {
            let ran = alone
                .command(arguments)
                .env_remove("DISPLAY")
                .env_remove("WAYLAND_DISPLAY")
                .env_remove("WAYLAND_SOCKET")
                .output()
                .unwrap();
            let text = [ran.stdout, ran.stderr].concat();
            let text = String::from_utf8(text).unwrap();
            assert_eq!(ran.status.code(), Some(status), "{arguments:?} {text}");
            let raw = |c: char| c != '\n' && c.is_control() || c == '\u{202e}';
            assert!(!text.contains(raw), "{arguments:?}: {text:?}");
            assert!(!text.contains("\nApproved"), "{arguments:?}: {text:?}");
        }
    }

    /// By a link, by a link to its folder and after its folder was renamed a case is the same one, with the same record.
    #[cfg(target_os = "linux")]
    #[test]
    fn a_case_has_one_record_by_whatever_way_it_is_reached() {
        use std::os::unix::fs::symlink;
        let alone = Alone::new();
        let at = |name: &str| alone.folder.path().join(name);
        let run = |arguments: &[&str]| alone.command(arguments).output().unwrap();
        for folder in ["true", "elsewhere"] {
            std::fs::create_dir(at(folder)).unwrap();
        }
        std::fs::rename(&alone.case, at("true/case.json")).unwrap();
        symlink(at("true/case.json"), at("elsewhere/link.json")).unwrap();
        symlink("true", at("linked")).unwrap();
        let ways = ["true/case.json", "elsewhere/link.json", "linked/case.json"];
        for (way, by) in ways.into_iter().zip(["RT", "MK", "QP"]) {
            let approved = run(&["approve", way, "--by", by, "--desk", "desk"]);
            assert!(approved.status.success(), "{approved:?}");
        }
        std::fs::rename(at("true"), at("renamed")).unwrap();
        std::fs::remove_file(at("elsewhere/link.json")).unwrap();
        symlink(at("renamed/case.json"), at("elsewhere/link.json")).unwrap();
        for way in ["renamed/case.json", "elsewhere/link.json"] {
            let told = String::from_utf8(run(&["history", way]).stdout).unwrap();
            for by in ["RT", "MK", "QP"] {
                assert!(told.contains(by), "{way}: {told}");
            }
        }
        let beside = std::fs::read_dir(at("elsewhere")).unwrap().count();
        assert_eq!(beside, 1, "nothing but the link");
    }

    /// One file under two names has a record beside each: what is signed beside one is not seen beside the other.
    #[cfg(target_os = "linux")]
    #[test]
    fn a_case_of_two_names_is_told_so_wherever_it_is_opened_or_signed() {
        let alone = Alone::new();
        let run = |arguments: &[&str]| {
            let ran = alone.command(arguments).output().unwrap();
            String::from_utf8([ran.stdout, ran.stderr].concat()).unwrap()
        };
        let told = "has another name beside this one";
        let check = ["check", "case.json"];
        assert!(!run(&check).contains(told));
        let other = alone.folder.path().join("other.json");
        std::fs::hard_link(&alone.case, &other).unwrap();
        for arguments in [
            &check[..],
            &["history", "other.json"],
            &["approve", "case.json", "--by", "RT", "--desk", "d"],
            &["sheet", "other.json", "--to", "x.pdf", "--parts", "form"],
            &["pack", "case.json", "--to", "x.pack"],
        ] {
            let said = run(arguments);
            assert!(said.contains(told), "{arguments:?}: {said}");
        }
        std::fs::remove_file(other).unwrap();
        assert!(!run(&check).contains(told));
    }

    /// A case that came out of a pack lives a life of its own: that is told where it counts, and when and where it was
    /// packed.
    #[cfg(target_os = "linux")]
    #[test]
    fn a_case_out_of_a_pack_is_told_as_a_copy_wherever_it_counts() {
        let alone = Alone::new();
        let run = |arguments: &[&str]| {
            let ran = alone.command(arguments).output().unwrap();
            String::from_utf8([ran.stdout, ran.stderr].concat()).unwrap()
        };
        run(&["pack", "case.json", "--to", "case.pack"]);
        let told = run(&["unpack", "case.pack", "--to", "copy"]);
        let place = alone.case.display().to_string();
        let today = jiff::Timestamp::now().strftime("%Y-%m-%d ").to_string();
        assert!(told.contains(&place) && told.contains(&today), "{told}");
        let copy = "copy/case.json";
        for arguments in [
            &["check", copy][..],
            &["history", copy],
            &["approve", copy, "--by", "RT", "--desk", "d"],
            &["sheet", copy, "--to", "x.pdf", "--parts", "form"],
            &["list", "copy"],
        ] {
            let said = run(arguments);
            assert!(said.contains("out of a pack"), "{arguments:?}: {said}");
        }
        let told = run(&["history", copy]);
        assert!(told.contains(&place) && told.contains(&today), "{told}");
        assert!(told.contains("still lies there"), "{told}");
        std::fs::remove_file(&alone.case).unwrap();
        let told = run(&["history", copy]);
        assert!(
            told.contains(&place) && !told.contains("still lies there"),
            "{told}"
        );
        // A link that leads in a circle stands for a disk that does not answer.
        std::os::unix::fs::symlink(&alone.case, &alone.case).unwrap();
        let told = run(&["history", copy]);
        assert!(told.contains("still lies there cannot be told"), "{told}");
        std::fs::remove_file(&alone.case).unwrap();
        for arguments in [&["check", "case.json"], &["list", "."]] {
            assert!(!run(arguments).contains("out of a pack"));
        }
    }

    /// Packed with a passphrase on the input, unpacked with the same from the environment; with another, nothing.
    #[cfg(target_os = "linux")]
    #[test]
    fn a_case_goes_through_an_encrypted_pack_byte_for_byte() {
        use std::io::Write as _;
        use std::process::Stdio;
        let alone = Alone::new();
        let approve = ["approve", "case.json", "--by", "RT", "--desk", "left"];
        assert!(alone.command(&approve).output().unwrap().status.success());
        let pack = ["pack", "case.json", "--to", "case.pack", "--encrypt"];
        let mut packing = alone
            .command(&pack)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        packing
            .stdin
            .take()
            .unwrap()
            .write_all(b"seven words\n")
            .unwrap();
        let packed = packing.wait_with_output().unwrap();
        let out = String::from_utf8(packed.stdout).unwrap();
        assert!(out.contains("nor can anybody else"), "{out}");
        let unpack = |to, passphrase| {
            let mut command = alone.command(&["unpack", "case.pack", "--to", to]);
            command
                .env("TRAYWRIGHT_PASSPHRASE", passphrase)
                .output()
                .unwrap()
        };
        let refused = unpack("never", "eight words");
        assert_eq!(refused.status.code(), Some(2));
        let err = String::from_utf8(refused.stderr).unwrap();
        assert!(err.contains("nobody can open the pack"), "{err}");
        assert!(!alone.folder.path().join("never").exists());
        assert!(unpack("again", "seven words").status.success());
        for name in ["case.json", "case.signed/left.events.jsonl"] {
            let read = |path: PathBuf| std::fs::read(path).unwrap();
            let again = alone.folder.path().join("again").join(name);
            assert_eq!(read(again), read(alone.folder.path().join(name)), "{name}");
        }
        // What is there is never replaced.
        assert_eq!(unpack("again", "seven words").status.code(), Some(2));
        assert_eq!(
            alone
                .command(&pack)
                .stdin(Stdio::null())
                .output()
                .unwrap()
                .status
                .code(),
            Some(2)
        );
    }

    /// Said first, beside the settings and findings that are printed all the same.
    #[cfg(all(unix, not(target_os = "macos")))]
    #[test]
    fn without_a_display_that_is_said() {
        let mut program = Command::new(env!("CARGO_BIN_EXE_traywright"));
        for display in ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"] {
            program.env_remove(display);
        }
        let ran = program.arg(demo("two-molars")).output().unwrap();
        assert_eq!(ran.status.code(), Some(0));
        let (out, err) = (
            String::from_utf8(ran.stdout).unwrap(),
            String::from_utf8(ran.stderr).unwrap(),
        );
        assert!(err.starts_with("There is no display here"), "{err}");
        assert!(out.contains("20.7 mm"), "{out}");
    }

    /// Eight sites with ten steps each in an order of their own, with few tools and many settings: more than
    /// is proved in minutes.
    #[cfg(unix)]
    fn hard_order() -> String {
        let step = |site: usize, n: usize| {
            let by = [1, 3, 7, 9][site % 4];
            let (tool, setting) = ((n * by + site * 3) % 10, (site * site + n * 3) % 5);
            let speed = 500 + 100 * (tool % 3);
            format!(
                r#"{{"instrument":{{"tool":"t{tool}","setting":"s{setting}"}},"speed_rpm":{speed}}}"#
            )
        };
        let list = |each: &dyn Fn(usize) -> String, count| {
            let all: Vec<String> = (0..count).map(each).collect();
            all.join(",")
        };
        let site = |site: usize| {
            let steps = list(&|n| step(site, n), 10);
            format!(r#"{{"id":"p{site}","steps":[{steps}]}}"#)
        };
        let tool = |n: usize| format!(r#"{{"id":"t{n}","copies":2}}"#);
        let (tools, sites) = (list(&tool, 10), list(&site, 8));
        format!(r#"{{"traywright_order":1,"tools":[{tools}],"sites":[{sites}]}}"#)
    }

    /// Whoever waits sees how far it is, and after Ctrl+C has the best so far with its bound.
    #[cfg(unix)]
    #[test]
    fn a_long_search_tells_how_far_it_is_and_gives_the_best_so_far_when_interrupted() {
        use std::io::{BufRead as _, BufReader, Read as _};
        use std::process::Stdio;
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("hard.json");
        std::fs::write(&file, hard_order()).unwrap();
        let mut child = Command::new(env!("CARGO_BIN_EXE_traywright"))
            .arg("order")
            .arg(&file)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut said = String::new();
        let mut err = BufReader::new(child.stderr.take().unwrap());
        err.read_line(&mut said).unwrap();
        assert!(said.contains("states searched. Best so far: "), "{said}");
        assert!(
            said.contains("re-set takes less than") || said.contains("None has"),
            "{said}"
        );
        let pid = child.id().to_string();
        let sent = Command::new("kill").args(["-INT", &pid]).status().unwrap();
        assert!(sent.success());
        let mut answer = String::new();
        let mut out = child.stdout.take().unwrap();
        out.read_to_string(&mut answer).unwrap();
        assert_eq!(child.wait().unwrap().code(), Some(0), "{answer}");
        std::fs::remove_dir_all(&folder).unwrap();
        for part in [
            r#""interrupted": true"#,
            r#""proved": false"#,
            r#""bound": {"#,
            r#""schedule": ["#,
        ] {
            assert!(answer.contains(part), "{part} in {answer}");
        }
        assert_eq!(answer.matches(r#""site": "#).count(), 80);
    }
}
