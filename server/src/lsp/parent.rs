//! Whether the client still runs, for one that ends without closing the pipe: another program may have inherited its other end.

use std::time::Duration;

/// How often it is looked for.
const INTERVAL: Duration = Duration::from_secs(5);

/// Waits until the process of this number is gone: for ever where no number is known, or no such process is there at first, as with a
/// client on another machine.
pub async fn gone(process: Option<u32>) {
    if process.is_none_or(|process| !runs(process)) {
        return std::future::pending().await;
    }
    while process.is_some_and(runs) {
        tokio::time::sleep(INTERVAL).await;
    }
}

/// Whether there is a process of this number, also one that may not be signalled.
#[cfg(unix)]
fn runs(process: u32) -> bool {
    use rustix::{io::Errno, process::Pid};

    let Some(process) = i32::try_from(process).ok().and_then(Pid::from_raw) else { return false };
    !matches!(rustix::process::test_kill_process(process), Err(Errno::SRCH))
}

/// Elsewhere a pipe ends with the process that opened it.
#[cfg(not(unix))]
fn runs(_: u32) -> bool {
    false
}
