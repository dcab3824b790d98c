//! Standard input and output, as the editor has set them up.
//!
//! The runtime waits for pipes and sockets by itself. Anything else, a terminal or a file, is read and written by a thread beside it,
//! and to go from thread to thread and back costs more than most answers.

use tokio::io::{AsyncRead, AsyncWrite, stdin, stdout};

/// Where the client's messages come from.
pub type Input = Box<dyn AsyncRead + Send + Unpin>;
/// Where ours go to.
pub type Output = Box<dyn AsyncWrite + Send + Unpin>;

/// Standard input. To be called within a runtime.
#[cfg(unix)]
pub fn input() -> Input {
    waited_for::input().unwrap_or_else(|| Box::new(stdin()))
}

/// Standard output. To be called within a runtime.
#[cfg(unix)]
pub fn output() -> Output {
    waited_for::output().unwrap_or_else(|| Box::new(stdout()))
}

/// Standard input.
#[cfg(not(unix))]
pub fn input() -> Input {
    Box::new(stdin())
}

/// Standard output.
#[cfg(not(unix))]
pub fn output() -> Output {
    Box::new(stdout())
}

#[cfg(unix)]
mod waited_for {
    use std::fs::File;
    use std::io;
    use std::os::fd::{AsFd, OwnedFd};
    use std::os::unix::fs::FileTypeExt;
    use std::os::unix::net;

    use tokio::net::{UnixStream, unix::pipe};

    use super::{Input, Output};

    /// What the runtime can wait for.
    enum Stream {
        Pipe(File),
        Socket(UnixStream),
    }

    pub fn input() -> Option<Input> {
        match stream(io::stdin())? {
            Stream::Pipe(file) => Some(Box::new(pipe::Receiver::from_file(file).ok()?)),
            Stream::Socket(socket) => Some(Box::new(socket)),
        }
    }

    pub fn output() -> Option<Output> {
        match stream(io::stdout())? {
            Stream::Pipe(file) => {
                widen(&file);
                Some(Box::new(pipe::Sender::from_file(file).ok()?))
            }
            Stream::Socket(socket) => Some(Box::new(socket)),
        }
    }

    /// The diagnostics of a long manuscript are longer than a pipe holds by itself: the client would have to be waited for in between.
    /// Where the system allows no more, it stays as it is.
    fn widen(pipe: &File) {
        #[cfg(target_os = "linux")]
        let _ = rustix::pipe::fcntl_setpipe_size(pipe, 1 << 20);
        #[cfg(not(target_os = "linux"))]
        let _ = pipe;
    }

    fn stream(own: impl AsFd) -> Option<Stream> {
        let file = File::from(own.as_fd().try_clone_to_owned().ok()?);
        let kind = file.metadata().ok()?.file_type();
        if kind.is_socket() {
            let socket = net::UnixStream::from(OwnedFd::from(file));
            socket.set_nonblocking(true).ok()?;
            return UnixStream::from_std(socket).ok().map(Stream::Socket);
        }
        kind.is_fifo().then_some(Stream::Pipe(file))
    }
}
