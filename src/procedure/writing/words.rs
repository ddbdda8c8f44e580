//! The words the writing rules look for: one list each, in small letters.

/// Verbs that begin an instruction.
pub(super) const COMMANDS: &[&str] = &[
    "add",
    "adjust",
    "align",
    "apply",
    "ask",
    "attach",
    "bring",
    "brush",
    "call",
    "cancel",
    "carry",
    "change",
    "check",
    "choose",
    "clamp",
    "clean",
    "clear",
    "close",
    "collect",
    "compare",
    "connect",
    "count",
    "cover",
    "cut",
    "delete",
    "detach",
    "disconnect",
    "do",
    "drain",
    "dry",
    "empty",
    "enter",
    "examine",
    "fasten",
    "feed",
    "fetch",
    "fill",
    "find",
    "fit",
    "fold",
    "follow",
    "give",
    "go",
    "guide",
    "hang",
    "hold",
    "inform",
    "insert",
    "inspect",
    "install",
    "isolate",
    "jog",
    "keep",
    "lay",
    "lead",
    "leave",
    "let",
    "lift",
    "load",
    "lock",
    "look",
    "loosen",
    "lower",
    "lubricate",
    "make",
    "mark",
    "measure",
    "mount",
    "move",
    "never",
    "note",
    "open",
    "operate",
    "pick",
    "place",
    "plug",
    "pour",
    "press",
    "prove",
    "pull",
    "pump",
    "push",
    "put",
    "raise",
    "read",
    "record",
    "release",
    "relieve",
    "remove",
    "renew",
    "repeat",
    "replace",
    "report",
    "reset",
    "restart",
    "return",
    "rinse",
    "rotate",
    "run",
    "say",
    "scan",
    "screw",
    "seal",
    "search",
    "secure",
    "select",
    "send",
    "set",
    "show",
    "sign",
    "slide",
    "splice",
    "start",
    "stay",
    "stop",
    "store",
    "support",
    "swab",
    "switch",
    "take",
    "tape",
    "tell",
    "test",
    "thread",
    "tick",
    "tie",
    "tighten",
    "touch",
    "transfer",
    "try",
    "turn",
    "uncover",
    "unlock",
    "unplug",
    "unscrew",
    "use",
    "vacuum",
    "verify",
    "wait",
    "warn",
    "wash",
    "watch",
    "wear",
    "weigh",
    "wipe",
    "withdraw",
    "work",
    "write",
];

/// Words that begin a condition or a phrase before the command.
pub(super) const OPENERS: &[&str] = &[
    "after", "at", "before", "for", "from", "if", "in", "on", "once", "to", "unless", "until",
    "when", "where", "while", "with", "without",
];

/// Words that may stand right before the command.
pub(super) const LEADS: &[&str] =
    &["afterwards", "always", "also", "now", "otherwise", "please", "then"];

/// Words with which the object of a command begins.
pub(super) const OBJECTS: &[&str] = &[
    "a", "all", "an", "another", "any", "both", "each", "every", "it", "its", "one", "that", "the",
    "their", "them", "these", "this", "those", "two", "your",
];

/// Commands that go on while the next one is done: both happen at the same moment.
pub(super) const LASTING: &[&str] = &["hold", "keep", "leave"];

/// Commands that make one movement with the one right behind: `push and turn the knob`.
pub(super) const JOINED: &[&str] = &["lift", "press", "pull", "push", "turn"];

/// Words right before an `if` that means whether, or whatever happens.
pub(super) const BEFORE_IF: &[&str] = &["as", "decide", "determine", "even", "know", "see"];

/// Commands after which `if` means whether.
pub(super) const WHETHER: &[&str] = &[
    "ask", "check", "examine", "find", "inspect", "look", "note", "record", "say", "test", "try",
    "verify", "write",
];

/// Words for which a number or a criterion belongs, and what to write.
pub(super) const VAGUE: &[(&str, &str)] = &[
    ("adequate", "the number or the mark that is reached"),
    ("adequately", "the number or the mark that is reached"),
    ("and so on", "the whole list"),
    ("appropriate", "which one"),
    ("appropriately", "what is done, and how far"),
    ("approx", "the number with its limits"),
    ("approximately", "the number with its limits"),
    ("as appropriate", "which one, and when"),
    ("as far as possible", "how far"),
    ("as necessary", "the condition first: If ..., ..."),
    ("as needed", "the condition first: If ..., ..."),
    ("as required", "the condition first: If ..., ..."),
    ("a few", "how many"),
    ("a little", "how much"),
    ("correctly", "what is seen when it is right"),
    ("etc", "the whole list"),
    ("firmly", "the torque, or the mark or stop that is reached"),
    ("frequently", "how often"),
    ("from time to time", "how often"),
    ("if needed", "the condition first: If ..., ..."),
    ("if necessary", "the condition first: If ..., ..."),
    ("if possible", "when it is possible, and what to do otherwise"),
    ("if required", "the condition first: If ..., ..."),
    ("occasionally", "how often"),
    ("periodically", "how often"),
    ("properly", "what is seen when it is right"),
    ("reasonable", "the number with its limits"),
    ("regularly", "how often"),
    ("roughly", "the number with its limits"),
    ("several", "how many"),
    ("slightly", "how much"),
    ("some", "how much or how many"),
    ("sufficient", "the number or the mark that is reached"),
    ("sufficiently", "the number or the mark that is reached"),
    ("suitable", "which one"),
    ("suitably", "what is done, and how far"),
    ("tight", "the torque, or the mark or stop that is reached"),
    ("tightly", "the torque, or the mark or stop that is reached"),
    ("when necessary", "the condition first: If ..., ..."),
    ("when needed", "the condition first: If ..., ..."),
    ("where necessary", "which places"),
];

/// `tighten well`: what to write.
pub(super) const WELL: &str = "what is reached: a torque, a mark, a test";
/// `about 5`: what to write.
pub(super) const ABOUT: &str = "the number with its limits";

/// Words in capitals that everybody knows: positions of controls, words for stress, films, standards.
pub(super) const KNOWN_CAPITALS: &[&str] = &[
    "AC", "ALL", "AND", "AUTO", "BOTH", "CFR", "CLOSE", "DC", "DO", "DOWN", "EN", "EU", "EXIT",
    "FAULT", "HOLD", "ID", "IEC", "ISO", "JOG", "LED", "LOCK", "MAN", "MUST", "NEVER", "NO", "NOT",
    "NOTE", "OFF", "OK", "ON", "ONLY", "OPEN", "OR", "OUT", "PE", "PET", "PIN", "PP", "PPE", "PVC",
    "QR", "READY", "RESET", "RUN", "SAFE", "START", "STOP", "TEST", "UP", "US", "UV", "YES",
];

/// Words behind a distance that say it is a way and no setting: `5 mm below the mark`.
pub(super) const RELATIVE: &[&str] =
    &["above", "apart", "away", "before", "behind", "below", "beside", "beyond", "from", "past"];

/// Words before `within` that compare two readings with each other and with no setting.
pub(super) const COMPARED: &[&str] = &["agree", "agrees", "differ", "equal", "match", "parallel"];
