use super::Answer;
use crate::failure::Failure;
/// x
#[derive(Debug, clap::Args)]
pub(super) struct Args {}
pub(super) fn run(_args: &Args) -> Result<Answer, Failure> { Err(Failure::new("later")) }
