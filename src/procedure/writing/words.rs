//! The words the writing rules look for: one list each, in small letters and in order.

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
    "exchange",
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
    "hand",
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
    &["afterwards", "also", "always", "now", "otherwise", "please", "then"];

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

/// Words for which a number or a criterion belongs, and the text that says what to write.
pub(super) const VAGUE: &[(&str, &str)] = &[
    ("adequate", "instead-reached"),
    ("adequately", "instead-reached"),
    ("and so on", "instead-whole-list"),
    ("appropriate", "instead-which"),
    ("appropriately", "instead-done"),
    ("approx", "instead-number"),
    ("approximately", "instead-number"),
    ("as appropriate", "instead-which-when"),
    ("as far as possible", "instead-how-far"),
    ("as necessary", "instead-condition"),
    ("as needed", "instead-condition"),
    ("as required", "instead-condition"),
    ("a few", "instead-how-many"),
    ("a little", "instead-how-much"),
    ("correctly", "instead-seen"),
    ("etc", "instead-whole-list"),
    ("firmly", "instead-torque"),
    ("frequently", "instead-how-often"),
    ("from time to time", "instead-how-often"),
    ("if needed", "instead-condition"),
    ("if necessary", "instead-condition"),
    ("if possible", "instead-when-possible"),
    ("if required", "instead-condition"),
    ("occasionally", "instead-how-often"),
    ("periodically", "instead-how-often"),
    ("properly", "instead-seen"),
    ("reasonable", "instead-number"),
    ("regularly", "instead-how-often"),
    ("roughly", "instead-number"),
    ("several", "instead-how-many"),
    ("slightly", "instead-how-much"),
    ("some", "instead-how-much-or-many"),
    ("sufficient", "instead-reached"),
    ("sufficiently", "instead-reached"),
    ("suitable", "instead-which"),
    ("suitably", "instead-done"),
    ("tight", "instead-torque"),
    ("tightly", "instead-torque"),
    ("when necessary", "instead-condition"),
    ("when needed", "instead-condition"),
    ("where necessary", "instead-which-places"),
];

/// `tighten well`: the text that says what to write.
pub(super) const WELL: &str = "instead-test";
/// `about 5`: the text that says what to write.
pub(super) const ABOUT: &str = "instead-number";

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

/// Words that are surely no noun of a cluster: articles, prepositions, adverbs, forms of verbs.
#[rustfmt::skip]
pub(super) const FUNCTION_WORDS: &[&str] = &[
    "a", "about", "above", "across", "after", "again", "against", "ago", "all", "almost", "alone",
    "along", "aloud", "already", "also", "although", "always", "am", "among", "an", "and",
    "another", "anticlockwise", "any", "anybody", "anyone", "anything", "anywhere", "apart", "are",
    "around", "as", "aside", "at", "away", "back", "backwards", "be", "became", "because",
    "becomes", "been", "before", "behind", "being", "below", "beneath", "bent", "beside", "besides",
    "between", "beyond", "both", "bound", "broken", "brought", "built", "but", "by", "came", "can",
    "cannot", "caught", "chosen", "clockwise", "comes", "could", "counterclockwise", "cut",
    "despite", "did", "do", "does", "done", "down", "downstream", "downwards", "drawn", "drew",
    "during", "each", "eight", "either", "else", "enough", "even", "ever", "every", "everybody",
    "everyone", "everything", "everywhere", "except", "fallen", "far", "farther", "fell", "felt",
    "few", "fewer", "first", "five", "for", "forward", "forwards", "found", "four", "from",
    "further", "gets", "given", "goes", "gone", "got", "had", "half", "has", "have", "having", "he",
    "held", "hence", "her", "here", "him", "his", "home", "how", "however", "hundred", "hung", "i",
    "if", "in", "indoors", "inside", "instead", "into", "is", "it", "its", "just", "keeps", "kept",
    "knew", "known", "laid", "lain", "last", "least", "led", "left", "less", "let", "lets", "lies",
    "like", "little", "looks", "lost", "made", "many", "may", "maybe", "me", "meant", "met",
    "might", "mine", "minus", "more", "most", "much", "must", "my", "near", "nearer", "need",
    "needs", "neither", "never", "next", "nine", "no", "nobody", "none", "nor", "not", "nothing",
    "now", "nowhere", "of", "off", "often", "ok", "on", "once", "one", "only", "onto", "opposite",
    "or", "other", "otherwise", "our", "out", "outdoors", "outside", "over", "overnight", "paid",
    "past", "per", "perhaps", "please", "plus", "put", "quite", "ran", "rather", "read", "remains",
    "risen", "rose", "round", "said", "says", "second", "seems", "seen", "sent", "set", "seven",
    "several", "shall", "she", "should", "shown", "sideways", "since", "sits", "six", "slid", "so",
    "some", "somebody", "someone", "something", "somewhere", "soon", "spent", "stands", "stays",
    "still", "stood", "struck", "stuck", "such", "swung", "taken", "ten", "than", "that", "the",
    "their", "them", "then", "there", "therefore", "these", "they", "third", "this", "those",
    "though", "thought", "three", "threw", "thrice", "through", "throughout", "thrown", "thus",
    "to", "today", "together", "told", "tomorrow", "tonight", "too", "torn", "toward", "towards",
    "twelve", "twenty", "twice", "two", "under", "underneath", "understood", "unless", "until",
    "up", "upon", "upright", "upstream", "upwards", "us", "versus", "very", "via", "was", "we",
    "well", "went", "were", "what", "when", "whenever", "where", "wherever", "whether", "which",
    "while", "who", "whoever", "whom", "whose", "why", "will", "with", "within", "without", "worn",
    "would", "wound", "written", "wrote", "yes", "yesterday", "yet", "you", "your", "yours",
];

/// Words right behind which a verb stands.
#[rustfmt::skip]
pub(super) const VERB_FOLLOWS: &[&str] = &[
    "anybody", "anyone", "can", "cannot", "could", "did", "do", "does", "everybody", "everyone",
    "everything", "he", "i", "it", "let", "lets", "may", "might", "must", "never", "nobody", "not",
    "nothing", "please", "shall", "she", "should", "somebody", "someone", "something", "then",
    "they", "to", "we", "which", "who", "will", "would", "you",
];

/// Words with which a clause begins that has a subject and a verb.
#[rustfmt::skip]
pub(super) const CLAUSES: &[&str] = &[
    "after", "although", "and", "as", "because", "before", "but", "how", "if", "once", "or",
    "since", "so", "than", "that", "though", "unless", "until", "what", "when", "whenever", "where",
    "whether", "which", "while", "who",
];

/// Words that join a second command.
pub(super) const JOINTS: &[&str] = &["and", "but", "or", "then"];

/// Adjectives and numerals that stand before a noun and are not told by their ending.
#[rustfmt::skip]
pub(super) const ADJECTIVES: &[&str] = &[
    "adjacent", "angular", "apparent", "arbitrary", "automatic", "auxiliary", "axial", "bad",
    "bare", "best", "better", "big", "black", "blank", "blue", "blunt", "brown", "central",
    "certain", "circular", "clean", "clear", "closer", "cold", "colder", "common", "complete",
    "convenient", "cool", "correct", "current", "dead", "deep", "deeper", "different", "dirty",
    "double", "dry", "dual", "due", "dusty", "dynamic", "early", "electric", "electrical",
    "electronic", "empty", "equal", "even", "exact", "external", "extra", "false", "fast", "faster",
    "female", "final", "firm", "first-class", "flat", "free", "fresh", "front", "full", "general",
    "good", "gray", "greasy", "greater", "green", "grey", "hard", "heavier", "heavy", "high",
    "high-voltage", "higher", "horizontal", "hot", "hotter", "hydraulic", "idle", "important",
    "incorrect", "indoor", "inner", "innermost", "internal", "large", "larger", "late", "later",
    "lateral", "latest", "light", "lighter", "live", "local", "long", "longer", "loose", "looser",
    "low", "lower", "magnetic", "main", "male", "maximum", "mechanical", "metallic", "middle",
    "minimum", "modular", "narrow", "necessary", "new", "newer", "normal", "odd", "oily", "old",
    "older", "open", "orange", "ordinary", "original", "outdoor", "outer", "outermost", "own",
    "permanent", "perpendicular", "personal", "pneumatic", "precise", "present", "previous",
    "primary", "proper", "quick", "radial", "raw", "ready", "rear", "rectangular", "red",
    "redundant", "regular", "relevant", "remote", "resilient", "right", "rigid", "robust", "rotary",
    "rough", "round", "safe", "same", "secondary", "secure", "separate", "shallow", "sharp",
    "short", "shorter", "similar", "simple", "single", "slow", "slower", "small", "smaller",
    "smooth", "soft", "spare", "special", "square", "static", "stationary", "sticky", "straight",
    "strong", "stronger", "suitable", "sure", "temporary", "thermal", "thick", "thicker", "thin",
    "thinner", "tight", "tighter", "transparent", "triangular", "triple", "true", "tubular", "twin",
    "upper", "urgent", "usual", "valid", "vertical", "warm", "warmer", "weak", "weaker", "wet",
    "white", "whole", "wide", "wider", "worse", "worst", "worst-case", "wrong", "yellow",
];

/// Endings of adjectives and participles.
#[rustfmt::skip]
pub(super) const ADJECTIVE_ENDINGS: &[&str] = &[
    "-free", "-proof", "-resistant", "-tight", "able", "al", "ed", "ful", "ible", "ic", "ing",
    "ish", "ive", "less", "ous",
];

/// Nouns with the ending of an adverb, an adjective or a participle.
#[rustfmt::skip]
pub(super) const NOUNS: &[&str] = &[
    "abrasive", "acrylic", "additive", "adhesive", "anomaly", "archive", "arithmetic", "assembly",
    "bearing", "bed", "belly", "brush", "building", "bushing", "cable", "casing", "ceiling",
    "ceramic", "chemical", "clinic", "clothing", "coal", "coating", "coupling", "covering",
    "crystal", "dial", "dish", "drawing", "drive", "explosive", "fabric", "family", "feed",
    "finish", "fitting", "fly", "goal", "graphic", "grating", "housing", "infeed", "interval",
    "journal", "lining", "logic", "magic", "manual", "marking", "material", "meal", "mechanic",
    "metal", "metric", "mic", "mounting", "o-ring", "opening", "outfeed", "oval", "packaging",
    "packing", "pedal", "piping", "plastic", "ply", "polish", "portal", "preservative", "reading",
    "reed", "removal", "rental", "ring", "rubbish", "seal", "seed", "setting", "shed", "signal",
    "sling", "speed", "spring", "string", "supply", "table", "terminal", "thing", "topic", "total",
    "traffic", "trial", "tubing", "varnish", "vial", "warning", "wing", "wiring",
];

/// Commands behind whose object a bare verb stands: `Let the guard close`.
pub(super) const LETTING: &[&str] = &["help", "let", "make", "watch"];

/// Commands that take two objects.
pub(super) const TWO_OBJECTS: &[&str] = &["give", "show", "tell"];

/// Beginnings that ask for a result and name no action.
#[rustfmt::skip]
pub(super) const INDIRECT: &[&str] = &[
    "be certain", "be sure", "ensure", "it is essential", "it is important", "it is necessary",
    "make certain", "make sure", "see that", "see to it", "take care that",
];

/// Words before `be closed` that make an order of it without saying to whom.
#[rustfmt::skip]
pub(super) const ORDERS: &[&str] = &[
    "are not to", "are to", "has to", "have to", "is not to", "is to", "must", "must not",
    "need to", "needs to",
];

/// Participles that do not end in `ed`.
#[rustfmt::skip]
pub(super) const PARTICIPLES: &[&str] = &[
    "bent", "bound", "brought", "built", "cut", "done", "drawn", "found", "given", "held", "hung",
    "kept", "laid", "led", "left", "lit", "made", "met", "put", "read", "run", "seen", "sent",
    "set", "shown", "shut", "split", "spun", "taken", "told", "torn", "undone", "won", "worn",
    "wound", "written",
];

/// Words of danger: what they are about is no remark.
#[rustfmt::skip]
pub(super) const DANGERS: &[&str] = &[
    "burn", "burns", "caution", "crush", "crushed", "crushes", "danger", "dangerous", "dangers",
    "death", "electrocute", "electrocuted", "electrocution", "explode", "explodes", "explosion",
    "explosive", "fatal", "flammable", "harmful", "hazard", "hazardous", "hazards", "hurt", "hurts",
    "injure", "injured", "injures", "injuries", "injury", "kill", "killed", "kills", "poison",
    "poisonous", "scald", "scalds", "toxic",
];

#[cfg(test)]
mod tests {
    #[test]
    fn every_list_is_in_order() {
        for list in [
            super::COMMANDS,
            super::OPENERS,
            super::LEADS,
            super::OBJECTS,
            super::LASTING,
            super::JOINED,
            super::BEFORE_IF,
            super::WHETHER,
            super::KNOWN_CAPITALS,
            super::RELATIVE,
            super::COMPARED,
            super::FUNCTION_WORDS,
            super::VERB_FOLLOWS,
            super::CLAUSES,
            super::JOINTS,
            super::ADJECTIVES,
            super::ADJECTIVE_ENDINGS,
            super::NOUNS,
            super::LETTING,
            super::TWO_OBJECTS,
            super::INDIRECT,
            super::ORDERS,
            super::PARTICIPLES,
            super::DANGERS,
        ] {
            assert!(list.is_sorted(), "{list:?}");
        }
    }
}
