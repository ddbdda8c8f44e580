//! Approvals and inspections, from the first to the audit: what they let through, what they stop.

use std::process::Command;

use crate::plant::{Plant, Run, copy_folder, files_of};

const TECHNICIAN: &str = "t.one@plant.example";
const LEAD: &str = "l.two@plant.example";
const QUALITY: &str = "q.three@plant.example";

/// A small plant that asks for approvals, with keys made by the system's `ssh-keygen`.
pub struct House {
    pub plant: Plant,
}

impl House {
    pub fn new() -> House {
        let plant = Plant::small();
        let mut signers = String::new();
        // A key that counts for more than two years is warned of.
        let day = |days| (chrono::Utc::now() + chrono::Duration::days(days)).format("%Y%m%dZ");
        let (from, until) = (day(-1), day(300));
        for person in [TECHNICIAN, LEAD, QUALITY] {
            let made = Command::new("ssh-keygen")
                .args(["-q", "-t", "ed25519", "-N", "", "-f"])
                .arg(plant.beside(person))
                .status()
                .unwrap();
            assert!(made.success());
            let public = std::fs::read_to_string(plant.beside(&format!("{person}.pub"))).unwrap();
            let public = public.split(' ').take(2).collect::<Vec<_>>().join(" ");
            signers += &format!(
                "{person} namespaces=\"signoff@plant.example,register@plant.example\",\
                 valid-after=\"{from}\",valid-before=\"{until}\" {public}\n"
            );
        }
        plant.write("allowed_signers", signers);
        let machine = plant.read("machines/line-1.yaml").replace("2027-06-30", "2098-12-31");
        plant.write("machines/line-1.yaml", machine);
        let facts = plant.read("plant.yaml");
        plant.write("plant.yaml", facts + "approvals: { procedures: lead, recipes: quality }\n");
        House { plant }
    }

    pub fn sign(&self, command: &str, by: &str, words: &[&str]) -> Run {
        let all = [&[command, "PLANT"], words, &["--by", by, "--key", by]].concat();
        self.plant.run(&all)
    }

    /// Everything that needs an approval and has none.
    fn open(&self) -> Vec<String> {
        let listed = self.plant.run(&["approve", "PLANT", "--json"]).ends(0).json();
        let open = listed.as_array().unwrap().iter().filter(|one| one["approved"].is_null());
        open.map(|one| one["subject"].as_str().unwrap().to_owned()).collect()
    }

    pub fn approve_everything(&self) {
        let open = self.open();
        for (by, start) in [(LEAD, "procedure:"), (QUALITY, "recipe:")] {
            let mut subjects = open.iter().map(String::as_str).collect::<Vec<_>>();
            subjects.retain(|subject| subject.starts_with(start));
            if !subjects.is_empty() {
                self.sign("approve", by, &subjects).ends(0);
            }
        }
        assert_eq!(self.open(), [""; 0]);
    }

    /// The sheet, and the first digits of its digest.
    fn sheet(&self) -> (String, String) {
        let words = ["packet", "PLANT", "J-1", "--out", "sheet.html", "--json"];
        let written = self.plant.run(&words).ends(0).json();
        let page = std::fs::read_to_string(self.plant.beside("sheet.html")).unwrap();
        (page, written["digest"].as_str().unwrap()[..12].to_owned())
    }

    fn begin(&self) -> Run {
        let (_, digits) = self.sheet();
        self.sign("signoff", TECHNICIAN, &["J-1", "--sheet", &digits, "--performed", "1"])
    }
}

#[test]
fn nobody_works_by_what_nobody_approved() {
    let house = House::new();
    house.plant.run(&["check", "PLANT"]).ends(0);
    house.plant.run(&["approve", "PLANT"]).ends(0).says("procedure:knives, revision 1, ");
    let (page, _) = house.sheet();
    assert!(page.contains("class=\"watermark\""));
    assert!(page.contains("recipes/large-pouch.yaml (not approved)"));
    house.begin().ends(1).says("refused[draft-packet]").says("instructions/knives.md (not");
    // Without the key nothing is asked, and nothing is added to the packet.
    house.approve_everything();
    let (page, _) = house.sheet();
    assert!(!page.contains("class=\"watermark\""));
    // Who approved what, which revision and when, stands on the paper.
    let today = chrono::Local::now().format("%Y").to_string();
    for piece in ["procedure:knives", "Lead Two, ", "revision 1, entry ", "Quality Three, ", &today]
    {
        assert!(page.contains(piece), "{piece}");
    }
    house.begin().ends(0);
    house.plant.run(&["audit", "PLANT"]).ends(0).says("register: 0 errors, 0 warnings");
    house.plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
}

#[test]
fn one_byte_more_needs_another_approval() {
    let house = House::new();
    house.approve_everything();
    house.plant.edit("instructions/knives.md", "revision: 1", "revision: 2");
    assert_eq!(house.open(), ["procedure:knives"]);
    let listed = house.plant.run(&["approve", "PLANT", "procedure:knives"]).ends(0);
    listed.says("procedure:knives, revision 2, ").says("approved revision 1, ");
    house.begin().ends(1).says("instructions/knives.md (not approved)");
    house.approve_everything();
    house.begin().ends(0);
}

#[test]
fn wrong_hands_approve_nothing() {
    let house = House::new();
    let refused = |by: &str, words: &[&str], code: &str| {
        house.sign("approve", by, words).ends(1).says(code).says("nothing was added");
        assert!(!house.plant.folder().join("register").exists(), "{code}");
    };
    refused(TECHNICIAN, &["procedure:knives"], "refused[role-not-held]");
    refused(LEAD, &["procedure:knives", "recipe:large-pouch"], "refused[role-not-held]");
    refused("n.obody@plant.example", &["procedure:knives"], "refused[person-unknown]");
    house.sign("approve", LEAD, &["procedure:knifes"]).ends(2).complains("procedure:knifes");
    house.sign("approve", LEAD, &[]).ends(2).complains("name what you approve");
    let other = ["approve", "PLANT", "procedure:knives", "--by", LEAD, "--key", QUALITY];
    house.plant.run(&other).ends(1).says("refused[signer-differs]");
    house.plant.edit("instructions/knives.md", "id: knives", "id: knives\ndraft: true");
    refused(LEAD, &["procedure:knives"], "refused[still-draft]");
    // A key for work alone approves nothing.
    let signers = house.plant.read("allowed_signers").replace(",register@plant.example", "");
    house.plant.write("allowed_signers", signers);
    refused(LEAD, &["procedure:release-from-lockout"], "refused[key-namespace]");
    house.plant.run(&["check", "PLANT"]).ends(1).says("register-nobody-can-sign");
}

#[test]
fn a_withdrawn_approval_stops_new_work_and_not_the_old() {
    let house = House::new();
    house.approve_everything();
    house.begin().ends(0);
    let why = ["recipe:large-pouch", "--withdraw", "Fin too narrow: seals leak."];
    house.sign("approve", QUALITY, &why).ends(0).says("withdrawn by Quality Three");
    house.sign("approve", QUALITY, &why).ends(1).says("refused[nothing-to-withdraw]");
    let listed = house.plant.run(&["approve", "PLANT"]).ends(0);
    listed.says("the approval was withdrawn: Fin too narrow").says(", 1 not approved");
    // The job that was begun before goes on by its frozen packet.
    house.sign("signoff", TECHNICIAN, &["J-1", "--performed", "2"]).ends(0);
    house.plant.run(&["audit", "PLANT"]).ends(0);
    let (page, _) = house.sheet();
    assert!(!page.contains("(not approved)"));
    std::fs::remove_dir_all(house.plant.folder().join("records")).unwrap();
    house.begin().ends(1).says("recipes/large-pouch.yaml (not approved)");
}

/// A found key approves nothing from the time on from which it is revoked.
#[test]
fn a_revoked_key_approved_what_it_approved_before() {
    let house = House::new();
    house.approve_everything();
    let key = Command::new("ssh-keygen").arg("-lf").arg(house.plant.beside(LEAD)).output().unwrap();
    let key = String::from_utf8(key.stdout).unwrap();
    let key = key.split(' ').nth(1).unwrap();
    let people = house.plant.read("people.yaml");
    for (from, is_open) in [("2098-01-01T00:00:00Z", false), ("2026-01-02T00:00:00Z", true)] {
        let revoked = format!("revoked: [{{ key: \"{key}\", from: \"{from}\", why: Lost }}]\n");
        house.plant.write("people.yaml", people.clone() + &revoked);
        assert_eq!(!house.open().is_empty(), is_open, "{from}");
    }
    house.plant.run(&["audit", "PLANT"]).ends(1).says("error[key-revoked]: entries 1 to 7");
}

#[test]
fn what_is_done_to_the_register_is_found() {
    let house = House::new();
    house.approve_everything();
    house.begin().ends(0);
    let first = "register/000001.json";
    let text = house.plant.read(first);
    house.plant.write(first, text.replace("\"revision\":\"1\"", "\"revision\":\"2\""));
    let audit = house.plant.run(&["audit", "PLANT"]).ends(1);
    let audit = audit.says("error[signature-bad]: entry 1").says("error[draft-used]: work was");
    audit.says("the register has no such entry 1 that counts");
    house.plant.run(&["publish", "PLANT", "--out", "site"]).ends(1).says("register-entry");
    house.plant.write(first, text);
    house.plant.run(&["audit", "PLANT"]).ends(0);
    // Without the whole register the packet's own words prove nothing.
    let aside = house.plant.beside("aside");
    std::fs::rename(house.plant.folder().join("register"), &aside).unwrap();
    house.plant.run(&["audit", "PLANT"]).ends(1).says("error[draft-used]");
}

#[test]
fn the_system_verifies_what_was_approved() {
    let house = House::new();
    house.approve_everything();
    let folder = house.plant.folder();
    for entry in ["000001.json", "000003.json"] {
        let entry = folder.join("register").join(entry);
        let json: serde_json::Value =
            serde_json::from_slice(&std::fs::read(&entry).unwrap()).unwrap();
        let at = chrono::DateTime::parse_from_rfc3339(json["at"].as_str().unwrap()).unwrap();
        let output = Command::new("ssh-keygen")
            .args(["-Y", "verify", "-n", "register@plant.example"])
            .args(["-I", json["by"].as_str().unwrap()])
            .arg("-f")
            .arg(folder.join("allowed_signers"))
            .arg("-s")
            .arg(entry.with_extension("json.sig"))
            .arg(format!("-Overify-time={}", at.to_utc().format("%Y%m%d%H%M%SZ")))
            .stdin(std::fs::File::open(&entry).unwrap())
            .output()
            .unwrap();
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    }
}

#[test]
fn an_inspection_is_signed_by_somebody_else_who_is_authorised() {
    let house = House::new();
    let plant = &house.plant;
    plant.edit(
        "people.yaml",
        "- { role: quality, from: 2026-01-01 }",
        "- { role: quality, from: 2026-01-01 }\n      - { role: technician, from: 2026-01-01 }",
    );
    let inspected = |by: &str, with: &str, more: &[&str]| {
        let words = ["lockout", "--machine", "line-1", "--with", with, "--found", "In order."];
        house.sign("inspected", by, &[&words, more].concat())
    };
    inspected(LEAD, TECHNICIAN, &[]).ends(1).says("refused[role-not-held]");
    inspected(TECHNICIAN, TECHNICIAN, &[]).ends(1).says("refused[inspects-self]");
    inspected(QUALITY, "n.obody@plant.example", &[]).ends(1).says("refused[person-unknown]");
    let ahead = ["--date", "2099-01-01"];
    inspected(QUALITY, TECHNICIAN, &ahead).ends(1).says("refused[date-ahead]");
    let elsewhere = ["inspected", "PLANT", "knives", "--machine", "line-1", "--with", LEAD];
    let elsewhere = [&elsewhere[..], &["--found", "x", "--by", QUALITY, "--key", QUALITY]].concat();
    plant.run(&elsewhere).ends(2).complains("has no lockout procedure `knives`");
    let words = ["inspected", "PLANT", "lockout", "--by", QUALITY, "--key", QUALITY];
    plant.run(&words).ends(2).complains("--machine");

    let old = ["--date", "2024-02-29"];
    inspected(QUALITY, TECHNICIAN, &old).ends(0).says("inspected by Quality Three");
    let due = |plant: &Plant| {
        let words = ["inspected", "PLANT", "lockout", "--json"];
        let listed = plant.run(&words).ends(0).json();
        (listed[0]["due"].clone(), listed[0]["overdue"].clone())
    };
    assert_eq!(due(plant), ("2025-02-28".into(), true.into()));
    plant.run(&["inspected", "PLANT"]).ends(0).says("lockout on line-1: overdue since 28 February");
    let audit = plant.run(&["audit", "PLANT"]).ends(0).says("was due on 2025-02-28");
    // What is noted of the register is counted with the rest.
    let notes =
        plant.run(&["audit", "PLANT", "--json"]).json()["beside"]["notes"].as_u64().unwrap();
    let audit = audit.says(&format!("register and logs: 0 errors, 0 warnings, {notes} note"));
    audit.says(&format!("0 records, 0 entries, {notes} finding"));
    let corrected = ["--corrected", "New tags."];
    inspected(QUALITY, TECHNICIAN, &corrected).ends(0);
    assert_eq!(due(plant).1, false);

    plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    let page = |name: &str| std::fs::read_to_string(plant.beside("site").join(name)).unwrap();
    for piece in ["Corrected: New tags.", "Technician One", "register/000002.json.sig"] {
        assert!(page("register/index.html").contains(piece), "{piece}");
    }
    assert!(page("machines/line-1.html").contains("by Quality Three with Technician One, entry 2"));
    assert!(page("procedures/lockout.html").contains("by Quality Three with Technician One"));
    assert!(page("records/index.html").contains("\"../register/index.html\""));
}

/// What is signed for each lockout procedure says more than an old date in the machine's file.
#[test]
fn signed_inspections_answer_an_old_date_of_the_machine() {
    let house = House::new();
    let plant = &house.plant;
    plant.edit(
        "people.yaml",
        "- { role: quality, from: 2026-01-01 }",
        "- { role: quality, from: 2026-01-01 }\n      - { role: technician, from: 2026-01-01 }",
    );
    plant.edit("machines/line-1.yaml", "date: 2026-01-08", "date: 2025-01-08");
    let inspect = |day: &str, rule: &str| {
        for procedure in ["lockout", "stored-energy", "release-from-lockout"] {
            plant.run(&["check", "PLANT"]).ends(1).says(rule);
            let words = [procedure, "--machine", "line-1", "--with", TECHNICIAN, "--date", day];
            house.sign("inspected", QUALITY, &[&words[..], &["--found", "Good."]].concat()).ends(0);
        }
    };
    let today = chrono::Utc::now().format("%Y-%m-%d").to_string();
    inspect(&today, "inspection-over");
    plant.run(&["check", "PLANT"]).ends(0);
    // And in the place of one that the machine's file does not have.
    std::fs::remove_dir_all(plant.folder().join("register")).unwrap();
    let machine = plant.read("machines/line-1.yaml");
    let machine = machine.lines().filter(|line| !line.starts_with("lockout_inspection"));
    plant.write(
        "machines/line-1.yaml",
        machine.map(|line| line.to_owned() + "\n").collect::<String>(),
    );
    inspect("2024-02-29", "inspection-missing");
    plant.run(&["check", "PLANT"]).ends(1).says("warning[inspection-over]").says("2024");
    std::fs::remove_dir_all(plant.folder().join("register")).unwrap();
    inspect(&today, "inspection-missing");
    plant.run(&["check", "PLANT"]).ends(0).says("nothing found");
}

/// Approvals signed on a copy come in with `collect`, once; where both went on nothing does.
#[test]
fn the_register_of_a_copy_is_taken_in() {
    let house = House::new();
    let folder = |name: &str| house.plant.beside(name).join("register");
    let collect = || house.plant.run(&["collect", "PLANT", "copy"]);
    let approve = |plant: &str, by: &str, subject: &str| {
        house.plant.run(&["approve", plant, subject, "--by", by, "--key", by]).ends(0);
    };
    copy_folder(&house.plant.folder(), &house.plant.beside("copy"));
    std::fs::create_dir_all(house.plant.beside("copy/records")).unwrap();
    approve("copy", LEAD, "procedure:knives");
    collect().ends(0).says("register: was not here; taken in with 1 entry");
    approve("copy", QUALITY, "recipe:large-pouch");
    collect().ends(0).says("register: 1 entry taken in").says("0 records looked at");
    assert_eq!(files_of(&folder("plant")), files_of(&folder("copy")), "byte for byte");
    collect().ends(0).says("register: the same");
    // A copy that does not hold, and one that went another way.
    let second = house.plant.beside("copy/register/000002.json");
    let good = std::fs::read(&second).unwrap();
    std::fs::remove_dir_all(folder("plant")).unwrap();
    std::fs::write(&second, [&good[..good.len() - 2], b" }\n"].concat()).unwrap();
    let refused = collect().ends(1).says("register: the copy does not hold");
    refused.says("error[not-canonical]: entry 2");
    assert!(!folder("plant").exists());
    std::fs::write(&second, &good).unwrap();
    approve("PLANT", LEAD, "procedure:lockout");
    let before = files_of(&folder("plant"));
    let parted = collect().ends(1).says("register: somebody signed here and on the copy");
    parted.says("procedure:lockout approved").says("procedure:knives approved");
    assert_eq!(files_of(&folder("plant")), before);
    house.plant.run(&["audit", "PLANT"]).ends(0);
}

#[test]
fn a_plant_that_asks_for_nothing_has_no_register() {
    let plant = Plant::small();
    plant.run(&["approve", "PLANT"]).ends(0).says("0 texts, 0 not approved");
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    assert!(!plant.beside("site/register").exists());
    let page = std::fs::read_to_string(plant.beside("site/machines/line-1.html")).unwrap();
    assert!(!page.contains("Last inspection"));
}
