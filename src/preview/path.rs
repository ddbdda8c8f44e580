//! What a request asks for, made out from its words alone.

use std::net::IpAddr;

/// Letters of the longest path that is looked at.
const LONGEST: usize = 512;

/// The path in a site that a request names; none when it cannot be one.
///
/// Only names in plain letters, as pages of a site have them: nothing is decoded, so nothing can turn
/// into something else.
pub fn wanted(target: &str) -> Option<String> {
    let path = target.strip_prefix('/')?;
    let is_plain = |c: char| c.is_ascii_alphanumeric() || "-._~".contains(c);
    let is_name = |name: &str| {
        !name.is_empty() && name.chars().any(|c| c != '.') && name.chars().all(is_plain)
    };
    let (folder, last) = path.rsplit_once('/').map_or((None, path), |(a, b)| (Some(a), b));
    let names = folder.into_iter().flat_map(|folder| folder.split('/'));
    let last = if last.is_empty() { "index.html" } else { last };
    let is_path = path.len() <= LONGEST && names.clone().chain([last]).all(is_name);
    is_path.then(|| names.chain([last]).collect::<Vec<_>>().join("/"))
}

/// Whether the `Host` of a request is this server: a page of another site, whose name was made to lead
/// here, has that name and not ours.
pub fn is_own(host: &str, port: u16, is_open: bool) -> bool {
    let (name, given) = match host.rsplit_once(':') {
        Some((name, given)) if !given.ends_with(']') => (name, given),
        _ => (host, "80"),
    };
    let address = name.trim_start_matches('[').trim_end_matches(']').parse::<IpAddr>();
    let is_name = match address {
        Ok(address) => is_open || address.is_loopback(),
        Err(_) => name.eq_ignore_ascii_case("localhost"),
    };
    is_name && given == port.to_string()
}

/// A value in a query; nothing is decoded.
pub fn value<'q>(query: &'q str, name: &str) -> Option<&'q str> {
    query.split('&').find_map(|pair| pair.strip_prefix(name)?.strip_prefix('='))
}

/// What kind of file a path names.
pub fn kind(path: &str) -> &'static str {
    match path.rsplit_once('.').map(|(_, end)| end) {
        Some("html") => "text/html; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("svg") => "image/svg+xml",
        Some("json") => "application/json",
        _ => "text/plain; charset=utf-8",
    }
}

#[cfg(test)]
mod tests {
    use super::{is_own, value, wanted};

    #[test]
    fn only_plain_names_are_looked_up() {
        for (target, path) in [
            ("/", Some("index.html")),
            ("/jobs/", Some("jobs/index.html")),
            ("/packets/J-1.html", Some("packets/J-1.html")),
            ("/logs/a/tile/0/000.p/3", Some("logs/a/tile/0/000.p/3")),
            ("", None),
            ("index.html", None),
            ("*", None),
            ("//", None),
            ("//etc/passwd", None),
            ("/../plant.yaml", None),
            ("/a/../../plant.yaml", None),
            ("/./a", None),
            ("/..%2fplant.yaml", None),
            ("/%2e%2e/plant.yaml", None),
            ("/a\\..\\b", None),
            ("/a\0b", None),
            ("/...", None),
            ("/a b", None),
            ("/ü", None),
        ] {
            assert_eq!(wanted(target).as_deref(), path, "{target}");
        }
        assert_eq!(wanted(&format!("/{}", "a".repeat(600))), None);
    }

    #[test]
    fn another_name_is_refused() {
        for (host, loopback, open) in [
            ("127.0.0.1:81", true, true),
            ("localhost:81", true, true),
            ("LocalHost:81", true, true),
            ("[::1]:81", true, true),
            ("127.0.0.1:82", false, false),
            ("127.0.0.1", false, false),
            ("[::1]", false, false),
            ("10.0.0.7:81", false, true),
            ("evil.example:81", false, false),
            ("127.0.0.1.evil.example:81", false, false),
            ("localhost.evil.example:81", false, false),
            ("", false, false),
        ] {
            assert_eq!(is_own(host, 81, false), loopback, "{host}");
            assert_eq!(is_own(host, 81, true), open, "{host}");
        }
        assert!(is_own("localhost", 80, false));
    }

    #[test]
    fn values_are_found_by_their_whole_name() {
        assert_eq!(value("since=12&page=a/b.html", "page"), Some("a/b.html"));
        assert_eq!(value("pages=1&page=2", "page"), Some("2"));
        assert_eq!(value("since=12", "page"), None);
    }
}
