//! Starts the command line and turns its answer into an exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    witnessmark::cli::main(std::env::args_os())
}
