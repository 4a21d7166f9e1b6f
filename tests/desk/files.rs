//! What of the folder is listed, read and written.

use super::*;

#[test]
fn routines_are_listed_and_nothing_else() {
    let served = Served::new();
    let answer = served.get("/files");
    assert_eq!(answer.status, 200);
    let list: serde_json::Value = serde_json::from_str(&answer.body).unwrap();
    let names: Vec<_> = list
        .as_array()
        .unwrap()
        .iter()
        .map(|f| &f["name"])
        .collect();
    assert_eq!(names, ["anna.toml", "tuesday/bo ü.toml"]);
}

#[test]
fn a_routine_is_read_and_written() {
    let served = Served::new();
    let read = served.get("/file/tuesday/bo%20%C3%BC.toml");
    assert_eq!(read.status, 200);
    assert!(read.body.contains("title = \\\"Bo\\\""), "{}", read.body);
    let written = served.put("anna.toml", Some("title = \"Anna\"\n"), "title = \"A\"\n");
    assert_eq!(written.status, 200, "{}", written.body);
    assert_eq!(served.read("anna.toml"), "title = \"A\"\n");
    assert_eq!(served.put("tuesday/new.toml", None, "x").status, 200);
    assert_eq!(served.read("tuesday/new.toml"), "x");
}

/// Somebody changed the file in an editor while it lay on the desk.
#[test]
fn a_file_that_changed_meanwhile_stays_and_is_shown() {
    let served = Served::new();
    fs::write(served.path("anna.toml"), "theirs").unwrap();
    for before in [Some("title = \"Anna\"\n"), None] {
        let refused = served.put("anna.toml", before, "mine");
        assert_eq!(refused.status, 409);
        assert!(refused.body.contains("theirs"), "{}", refused.body);
    }
    assert_eq!(served.read("anna.toml"), "theirs");
    fs::remove_file(served.path("anna.toml")).unwrap();
    assert_eq!(served.put("anna.toml", Some("theirs"), "mine").status, 409);
    assert!(!served.path("anna.toml").exists());
}

#[test]
fn nothing_outside_the_folder_or_hidden_is_touched() {
    let served = Served::new();
    let outside = served.around.path().join("secret.toml");
    let mut names = vec![
        "../secret.toml",
        "%2e%2e/secret.toml",
        "tuesday/..%2f..%2fsecret.toml",
        ".d.toml",
        "tuesday/.hidden/c.toml",
        "notes.txt",
        "new.txt",
        "nowhere/new.toml",
        ".new.toml",
        "",
    ];
    #[cfg(unix)]
    {
        let link = |to: &std::path::Path, name: &str| {
            std::os::unix::fs::symlink(to, served.path(name)).unwrap();
        };
        link(&outside, "out.toml");
        link(served.around.path(), "up");
        link(
            &served.around.path().join("not there.toml"),
            "dangling.toml",
        );
        names.extend(["out.toml", "up/secret.toml", "up/new.toml", "dangling.toml"]);
    }
    for name in names {
        let read = served.get(&format!("/file/{name}"));
        assert_eq!(read.status, 404, "{name}");
        assert!(!read.body.contains("secret"), "{name}");
        for before in [None, Some("secret")] {
            let written = served.put(name, before, "mine");
            assert!(
                [404, 409].contains(&written.status),
                "{name}: {}",
                written.status
            );
            assert!(!written.body.contains("secret"), "{name}");
        }
    }
    assert_eq!(fs::read_to_string(&outside).unwrap(), "secret");
    assert!(!served.around.path().join("not there.toml").exists());
    assert!(!served.around.path().join("new.toml").exists());
}

#[test]
fn what_is_no_routine_by_its_size_is_refused() {
    let served = Served::new();
    let before = Some("title = \"Anna\"\n");
    let large = served.put("anna.toml", before, &"x".repeat((1 << 20) + 1));
    assert_eq!(large.status, 500);
    assert!(large.body.contains("1 MiB"), "{}", large.body);
    assert_eq!(served.read("anna.toml"), "title = \"Anna\"\n");
}
