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
            (&["figures", "--explane"], "two-molars", 2),
            (&["approve", "--by", "RT"], "two-molars", 2),
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
}
