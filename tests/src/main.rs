//! The program under test: exactly what the binary `strutwork` does.

fn main() -> std::process::ExitCode {
    strutwork_cli::main()
}
