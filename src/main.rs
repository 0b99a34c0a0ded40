//! Hands over to the commands.

fn main() -> std::process::ExitCode {
    leeside::cli::run()
}
