//! Keys: from a file with a passphrase, from a real agent; keys that were revoked or end soon.

use std::io::Write;
use std::process::{Child, Command, Stdio};

use chrono::{Duration, Local};

use crate::commands::{Crew, LEAD, TECHNICIAN};
use crate::plant::{Plant, Run};

/// A running `ssh-agent`, stopped when dropped.
struct Agent {
    child: Child,
    socket: String,
}

impl Agent {
    fn start(plant: &Plant) -> Agent {
        let socket = plant.beside("agent").display().to_string();
        let child = Command::new("ssh-agent")
            .args(["-D", "-a", &socket])
            .env("SSH_ASKPASS", "false")
            .stdout(Stdio::null())
            .spawn()
            .expect("ssh-agent is there");
        let agent = Agent { child, socket };
        for _ in 0..500 {
            if std::path::Path::new(&agent.socket).exists() {
                return agent;
            }
            std::thread::sleep(std::time::Duration::from_millis(10));
        }
        panic!("the agent does not listen");
    }

    fn ssh_add(&self, plant: &Plant, words: &[&str]) {
        let mut add = Command::new("ssh-add");
        add.args(words).current_dir(plant.beside("")).env("SSH_AUTH_SOCK", &self.socket);
        let output = add.stdin(Stdio::null()).output().unwrap();
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    }

    /// `signoff` without a key of its own.
    fn sign(&self, crew: &Crew, by: &str, words: &[&str]) -> Run {
        let all = [&["signoff", "PLANT", "J-1", "--by", by], words].concat();
        let mut command = crew.plant.command(&all);
        command.env("SSH_AUTH_SOCK", &self.socket);
        Run::of(command)
    }
}

impl Drop for Agent {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// What `ssh-keygen -Y sign` makes of an entry with the key of a file.
fn signed_by_the_system(crew: &Crew, key: &str, entry: &str) -> Vec<u8> {
    let entry = std::fs::read(crew.record().join(entry)).unwrap();
    let mut child = Command::new("ssh-keygen")
        .args(["-Y", "sign", "-n", "signoff@plant.example", "-f", key])
        .current_dir(crew.plant.beside(""))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(&entry).unwrap();
    child.wait_with_output().unwrap().stdout
}

#[test]
fn an_agent_signs_what_ssh_keygen_would_sign() {
    let crew = Crew::new();
    let agent = Agent::start(&crew.plant);
    // Keys of others come first: the one listed for the person signs.
    let made = Command::new("ssh-keygen")
        .args(["-q", "-t", "rsa", "-b", "2048", "-N", "", "-f", "rsa"])
        .current_dir(crew.plant.beside(""))
        .status();
    assert!(made.unwrap().success());
    agent.ssh_add(&crew.plant, &["-q", "rsa", LEAD, TECHNICIAN]);
    let digest = crew.digest();
    let words = ["--sheet", &digest[..12], "--performed", "1", "--performed", "2"];
    agent.sign(&crew, TECHNICIAN, &words).ends(0).says("performed");
    for entry in ["000001.json", "000002.json"] {
        let ours = std::fs::read(crew.record().join(format!("{entry}.sig"))).unwrap();
        assert!(!ours.is_empty() && ours == signed_by_the_system(&crew, TECHNICIAN, entry));
    }
    // A key file goes before the agent.
    crew.sign(TECHNICIAN, &["--performed", "3"]).ends(0);
    crew.plant.run(&["audit", "PLANT"]).ends(0).says("3 entries");
}

#[test]
fn an_agent_that_does_not_sign_adds_nothing() {
    let crew = Crew::new();
    crew.begin();
    let words = ["--performed", "2"];
    let without = Run::of({
        let mut command = crew.plant.command(&[
            "signoff",
            "PLANT",
            "J-1",
            "--by",
            TECHNICIAN,
            "--performed",
            "2",
        ]);
        command.env_remove("SSH_AUTH_SOCK");
        command
    });
    without.ends(2).complains("--key FILE, or let an agent keep it");
    let agent = Agent::start(&crew.plant);
    let none = "none of the agent's keys (0) is listed in allowed_signers for t.one@plant.example";
    agent.sign(&crew, TECHNICIAN, &words).ends(2).complains(none);
    agent.ssh_add(&crew.plant, &["-q", LEAD]);
    agent.sign(&crew, TECHNICIAN, &words).ends(2).complains("none of the agent's keys (1)");
    agent.ssh_add(&crew.plant, &["-q", TECHNICIAN]);
    // An agent that asks its owner, and nobody is there to say yes.
    agent.ssh_add(&crew.plant, &["-q", "-D"]);
    agent.ssh_add(&crew.plant, &["-q", "-c", TECHNICIAN]);
    let refused = agent.sign(&crew, TECHNICIAN, &words).ends(2);
    refused.complains("is locked or was not confirmed: the agent did not sign");
    let socket = agent.socket.clone();
    drop(agent);
    let _ = std::fs::remove_file(&socket);
    let mut gone =
        crew.plant.command(&["signoff", "PLANT", "J-1", "--by", TECHNICIAN, "--performed", "2"]);
    gone.env("SSH_AUTH_SOCK", &socket);
    Run::of(gone).ends(2).complains(&format!("could not ask the agent at {socket}"));
    crew.plant.run(&["audit", "PLANT"]).ends(0).says("1 entry");
}

/// An agent that answers with anything at all.
#[test]
fn an_agent_is_not_trusted() {
    let crew = Crew::new();
    crew.begin();
    let socket = crew.plant.beside("false-agent");
    let listener = std::os::unix::net::UnixListener::bind(&socket).unwrap();
    for answer in [
        b"".as_slice(),
        b"\xff\xff\xff\xff",
        b"\0\0\0\x01\x05",
        b"\0\0\0\x05\x0c\xff\xff\xff\xff",
        b"\0\0\0\x09\x0c\0\0\0\x01\xff\xff\xff\xff",
    ] {
        let mut command = crew.plant.command(&[
            "signoff",
            "PLANT",
            "J-1",
            "--by",
            TECHNICIAN,
            "--performed",
            "2",
        ]);
        command.env("SSH_AUTH_SOCK", &socket);
        let run = std::thread::scope(|scope| {
            let running = scope.spawn(|| Run::of(command));
            let (mut stream, _) = listener.accept().unwrap();
            let mut question = [0; 5];
            std::io::Read::read_exact(&mut stream, &mut question).unwrap();
            stream.write_all(answer).unwrap();
            drop(stream);
            running.join().unwrap()
        });
        run.ends(2).complains("could not ask the agent at");
    }
    crew.plant.run(&["audit", "PLANT"]).ends(0).says("J-1: open, 1 entry");
}

/// The line of `people.yaml` that takes a key away.
pub fn revoke(crew: &Crew, person: &str, from: &str) {
    let printed = Command::new("ssh-keygen")
        .args(["-l", "-f", person])
        .current_dir(crew.plant.beside(""))
        .output()
        .unwrap();
    let printed = String::from_utf8(printed.stdout).unwrap();
    let key = printed.split(' ').nth(1).unwrap();
    let people = crew.plant.read("people.yaml");
    let entry =
        format!("revoked:\n  - {{ key: \"{key}\", from: {from}, why: Phone was stolen }}\n");
    crew.plant.write("people.yaml", people + &entry);
}

pub fn written(time: chrono::DateTime<Local>) -> String {
    time.format("%Y-%m-%dT%H:%M:%S%:z").to_string()
}

#[test]
fn a_revoked_key_signs_no_more_and_what_it_signed_before_stays_good() {
    let crew = Crew::new();
    crew.begin();
    std::thread::sleep(std::time::Duration::from_millis(1100));
    revoke(&crew, TECHNICIAN, &written(Local::now()));
    let said = "is signed with a key that was revoked from";
    let refused = crew.sign(TECHNICIAN, &["--performed", "2"]).ends(1);
    refused.says("refused[key-revoked]").says(said).says("Phone was stolen");
    crew.plant.run(&["audit", "PLANT"]).ends(0).says("1 entry");
}

#[test]
fn what_a_key_signed_after_it_was_lost_is_found() {
    let crew = Crew::new();
    crew.begin();
    revoke(&crew, TECHNICIAN, &written(Local::now() - Duration::hours(2)));
    crew.plant.run(&["audit", "PLANT"]).ends(1).says("error[key-revoked]: entry 1: is signed with");
}

/// A revocation that cannot be read must not let a lost key sign.
#[test]
fn an_unreadable_revocation_lets_nobody_sign() {
    let crew = Crew::new();
    crew.begin();
    revoke(&crew, TECHNICIAN, "yesterday");
    crew.sign(LEAD, &["--performed", "2"]).ends(1).says("error[revoked-time]");
    crew.plant.run(&["audit", "PLANT"]).ends(1).says("error[revoked-time]").says("key-revoked");
}

#[test]
fn a_key_that_ends_soon_is_told_when_it_signs() {
    let crew = Crew::new();
    let signers = crew.plant.read("allowed_signers");
    let end = (Local::now() + Duration::days(29)).to_utc().format("%Y%m%d%H%M%SZ").to_string();
    crew.plant.write("allowed_signers", signers.replacen("20990101000000Z", &end, 1));
    let digest = crew.digest();
    let words = ["--sheet", &digest[..12], "--performed", "1"];
    crew.sign(TECHNICIAN, &words).ends(0).says("your key ends on");
    let added = crew.sign(TECHNICIAN, &["--performed", "2", "--json"]).ends(0).json();
    assert!(added["key_ends"].as_str().unwrap().contains("allowed_signers"), "{added}");
    let run = crew.sign(LEAD, &["--verified", "prepare.brief-the-crew"]);
    assert!(!run.stdout.contains("ends on"), "{}", run.stdout);
}
