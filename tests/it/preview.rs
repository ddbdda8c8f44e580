//! `preview`: what is served, to whom, and how it follows the files.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use witnessmark::page::site::preview::{Bar, dressed};

use crate::plant::{Plant, files_of};

/// A preview that runs.
struct Preview {
    child: Child,
    address: SocketAddr,
    said: String,
}

/// An answer of the server.
struct Answer {
    status: u16,
    head: String,
    body: Vec<u8>,
}

impl Answer {
    fn text(&self) -> String {
        String::from_utf8(self.body.clone()).unwrap()
    }
}

impl Preview {
    fn of(plant: &Plant) -> Preview {
        Preview::with(plant, &[])
    }

    fn with(plant: &Plant, more: &[&str]) -> Preview {
        let words: Vec<&str> =
            ["preview", "PLANT"].into_iter().chain(more.iter().copied()).collect();
        // Where the tests run in the background, an interrupt is ignored, and what they start inherits it.
        let own = plant.command(&words);
        let mut command = Command::new("env");
        command.arg("--default-signal=INT").arg(own.get_program()).args(own.get_args());
        command.current_dir(own.get_current_dir().unwrap()).env("LC_ALL", "C");
        let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        let mut said = String::new();
        let mut lines = BufReader::new(child.stdout.as_mut().unwrap());
        while !said.contains("Ctrl-C") && lines.read_line(&mut said).unwrap() > 0 {}
        let address = said.split("http://").nth(1).and_then(|rest| rest.split('/').next());
        let address = address.unwrap_or_else(|| panic!("{said}")).parse().unwrap();
        Preview { child, address, said }
    }

    /// Sends bytes, and reads what comes back until the server closes.
    fn send(&self, request: &str) -> Answer {
        let mut stream = TcpStream::connect(self.address).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
        stream.write_all(request.as_bytes()).unwrap();
        let mut bytes = Vec::new();
        stream.read_to_end(&mut bytes).unwrap();
        let end = bytes.windows(4).position(|four| four == b"\r\n\r\n").unwrap_or(bytes.len() - 4);
        let head = String::from_utf8(bytes[..end].to_vec()).unwrap();
        let status = head.split(' ').nth(1).unwrap().parse().unwrap();
        Answer { status, head, body: bytes[end + 4..].to_vec() }
    }

    fn request(&self, method: &str, target: &str, host: &str) -> Answer {
        self.send(&format!(
            "{method} {target} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"
        ))
    }

    fn get(&self, target: &str) -> Answer {
        self.request("GET", target, &self.address.to_string())
    }

    /// The number of the state after this one.
    fn after(&self, since: i64) -> i64 {
        let answer = self.get(&format!("/preview/changes?since={since}"));
        let answer: serde_json::Value = serde_json::from_slice(&answer.body).unwrap();
        answer["now"].as_i64().unwrap()
    }

    /// Where a page differs from the state before.
    fn at(&self, page: &str) -> String {
        let html = self.get(&format!("/{page}")).text();
        let at = html.split("data-at=\"").nth(1).and_then(|rest| rest.split('"').next());
        at.unwrap().to_owned()
    }
}

impl Drop for Preview {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

#[test]
fn it_serves_what_publish_writes() {
    let plant = Plant::small();
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    let before = files_of(&plant.folder());
    let preview = Preview::of(&plant);
    let now = preview.after(0);
    let site = files_of(&plant.beside("site"));
    assert!(site.len() > 30);
    for (path, published) in site {
        let served = preview.get(&format!("/{path}"));
        assert_eq!(served.status, 200, "{path}");
        let expected = match path.ends_with(".html") {
            true => {
                let html = String::from_utf8(published).unwrap();
                dressed(&html, &Bar::default(), now, "").into_bytes()
            }
            false => published,
        };
        assert!(served.body == expected, "{path}");
        assert!(served.head.contains("x-content-type-options: nosniff"), "{}", served.head);
        assert!(served.head.contains("cache-control: no-store"));
    }
    assert_eq!(preview.get("/").text(), preview.get("/index.html").text());
    let head = preview.request("HEAD", "/jobs/", &preview.address.to_string());
    assert_eq!((head.status, head.body.len()), (200, 0));
    assert!(files_of(&plant.folder()) == before, "nothing is written");
}

#[test]
fn nothing_outside_the_site_is_served() {
    let plant = Plant::small();
    std::os::unix::fs::symlink(plant.folder().join("plant.yaml"), plant.folder().join("leak.html"))
        .unwrap();
    let preview = Preview::of(&plant);
    for target in [
        "/plant.yaml",
        "/leak.html",
        "/..%2fplant.yaml",
        "/../plant/plant.yaml",
        "/assets/..%2f..%2fplant.yaml",
        "/assets/../../plant/plant.yaml",
        "/%2e%2e/plant/plant.yaml",
        "//etc/passwd",
        "/etc/passwd",
        "/packets/../plant.yaml",
        "/packets/nothing.html",
        "/records/J-1/packet.json",
        "/preview/nothing",
        "/jobs/index.html%00.html",
    ] {
        let answer = preview.get(target);
        assert_eq!((answer.status, answer.text().as_str()), (404, "404 Not Found\n"), "{target}");
    }
}

#[test]
fn only_readers_of_this_host_are_answered() {
    let plant = Plant::small();
    let preview = Preview::of(&plant);
    let own = preview.address.to_string();
    let port = preview.address.port();
    assert!(preview.address.ip().is_loopback());
    for (host, status) in [
        (own.as_str(), 200),
        (&format!("localhost:{port}"), 200),
        (&format!("evil.example:{port}"), 421),
        ("localhost", 421),
        (&format!("10.0.0.7:{port}"), 421),
        ("", 421),
    ] {
        assert_eq!(preview.request("GET", "/", host).status, status, "{host}");
    }
    let two = format!("GET / HTTP/1.1\r\nHost: {own}\r\nHost: evil.example\r\n\r\n");
    assert_eq!(preview.send(&two.replace("\r\n\r\n", "\r\nConnection: close\r\n\r\n")).status, 421);
    let absolute = preview.request("GET", "http://evil.example/", &own);
    assert_eq!(absolute.status, 421);
    for method in ["POST", "PUT", "DELETE", "OPTIONS"] {
        assert_eq!(preview.request(method, "/", &own).status, 405, "{method}");
    }
    let body = format!("GET / HTTP/1.1\r\nHost: {own}\r\nContent-Length: 3000000000\r\n\r\nabc");
    assert_eq!(preview.send(&body).status, 413);
    let long = format!("GET /{} HTTP/1.1\r\nHost: {own}\r\n\r\n", "a".repeat(100_000));
    let mut stream = TcpStream::connect(preview.address).unwrap();
    // It may be closed before everything was sent.
    let _ = stream.write_all(long.as_bytes());
    let mut answer = Vec::new();
    let _ = stream.read_to_end(&mut answer);
    assert!(!String::from_utf8_lossy(&answer).contains("200 OK"));
    assert_eq!(preview.get("/").status, 200, "it goes on");
}

#[test]
fn pages_follow_each_save_and_say_where() {
    let plant = Plant::small();
    let preview = Preview::of(&plant);
    let page = "packets/J-1.html";
    let step = "instructions/first-piece.md";
    let now = preview.after(0);
    assert!(!preview.get(&format!("/{page}")).text().contains("Shout three times"));
    plant.edit(step, "Run the line at its lowest speed.", "Shout three times.");
    let edited = preview.after(now);
    let html = preview.get(&format!("/{page}")).text();
    let at = preview.at(page);
    let (_, rest) = html.split_once(&format!("id=\"{at}\"")).unwrap();
    let own = rest.split("id=\"step-").next().unwrap();
    assert!(own.contains("Shout three times."), "{at}");
    assert_eq!(preview.at("procedures/first-piece.html"), "step-1");
    assert_eq!(preview.at("machines/line-1.html"), "");

    // A broken file: the last good pages stay, and say what is wrong.
    let good = plant.read("recipes/large-pouch.yaml");
    plant.edit("recipes/large-pouch.yaml", "fin: 5 mm", "fin: 5 mmm");
    let broken = preview.after(edited);
    assert_eq!(preview.at(page), "");
    let html = preview.get(&format!("/{page}")).text();
    assert!(html.contains("Shout three times.") && html.contains("<aside class=\"preview old\""));
    assert!(html.contains("1 error") && html.contains("recipes/large-pouch.yaml:8:"));
    let findings = preview.get("/preview/findings.html").text();
    assert!(findings.contains("error[bad-quantity]") && findings.contains("^^^"), "{findings}");

    // No plant at all for a moment, as when a folder is put in place.
    let facts = plant.read("plant.yaml");
    std::fs::remove_file(plant.folder().join("plant.yaml")).unwrap();
    let gone = preview.after(broken);
    assert!(preview.get(&format!("/{page}")).text().contains("is not a plant"));
    plant.write("plant.yaml", facts);
    let back = preview.after(gone);

    // Mended as some editors do it: written aside, and put in its place.
    plant.write("recipes/.large-pouch.yaml.tmp", good);
    let name = |name: &str| plant.folder().join("recipes").join(name);
    std::fs::rename(name(".large-pouch.yaml.tmp"), name("large-pouch.yaml")).unwrap();
    preview.after(back);
    let html = preview.get(&format!("/{page}")).text();
    assert!(html.contains("Shout three times.") && !html.contains("<aside"));
}

#[test]
fn a_plant_that_begins_broken_shows_its_findings_and_then_its_pages() {
    let plant = Plant::small();
    let good = plant.read("people.yaml");
    plant.write("people.yaml", "people: [");
    let preview = Preview::of(&plant);
    let now = preview.after(0);
    let html = preview.get("/").text();
    assert!(html.contains("error[not-yaml]") && html.contains("There are no pages until"));
    assert_eq!(preview.get("/jobs/").status, 404);
    plant.write("people.yaml", good);
    preview.after(now);
    assert_eq!(preview.get("/jobs/").status, 200);
}

#[test]
fn it_ends_on_an_interrupt_and_leaves_nothing_behind() {
    let plant = Plant::small();
    let before = files_of(plant.folder().parent().unwrap());
    let mut preview = Preview::of(&plant);
    preview.get("/");
    let address = preview.address;
    let taken = plant.run(&["preview", "PLANT", "--port", &address.port().to_string()]);
    taken.ends(2).complains(&address.to_string());
    let pid = preview.child.id().to_string();
    assert!(Command::new("kill").args(["-INT", &pid]).status().unwrap().success());
    let status = preview.child.wait().unwrap();
    assert!(!status.success());
    TcpListener::bind(address).expect("the port is free again");
    assert!(files_of(plant.folder().parent().unwrap()) == before);
}

#[test]
fn another_address_is_opened_only_with_a_warning() {
    let plant = Plant::small();
    let preview = Preview::with(&plant, &["--open-to", "0.0.0.0"]);
    let warning = "over the network can read this plant";
    assert!(preview.said.contains(warning) && preview.said.contains("http://0.0.0.0:"));
    let port = preview.address.port();
    let named = |host: &str| preview.request("GET", "/", &format!("{host}:{port}")).status;
    assert_eq!((named("10.0.0.7"), named("evil.example")), (200, 421));
    drop(preview);
    assert!(!Preview::of(&plant).said.contains(warning));
    plant.run(&["preview", "nowhere"]).ends(2).complains("nowhere is not a plant");
}

/// From a save to the changed page, against publishing the same plant.
#[test]
fn a_save_is_shown_in_a_part_of_the_time_of_publishing() {
    let plant = Plant::demo();
    let whole = timed(|| {
        plant.run(&["publish", "PLANT", "--out", "site"]);
    });
    let preview = Preview::of(&plant);
    let page = "packets/SM-1041.html";
    let mut now = preview.after(0);
    preview.get(&format!("/{page}"));
    let file = "instructions/dust-guard.md";
    let mut best = Duration::MAX;
    for round in 0..3 {
        let text = plant.read(file) + "\nOne more word.\n";
        let shown = timed(|| {
            plant.write(file, &text);
            now = preview.after(now);
            preview.get(&format!("/{page}"));
        });
        println!("round {round}: {shown:?} of {whole:?}");
        best = best.min(shown);
    }
    assert!(best * 2 < whole, "{best:?} of {whole:?}");
}

fn timed(run: impl FnOnce()) -> Duration {
    let start = Instant::now();
    run();
    start.elapsed()
}
