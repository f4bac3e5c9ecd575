//! The binary `strutwork`: everything is in the library, so that tests can run the same program.

fn main() -> std::process::ExitCode {
    strutwork_cli::main()
}
