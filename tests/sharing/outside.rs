//! Nothing outside the folder, and nothing hidden in it.

use super::*;

#[test]
fn no_path_leads_out_of_the_folder() {
    let shared = Shared::new();
    let absolute = shared.around.path().join("secret.txt");
    let absolute = absolute.to_str().unwrap();
    assert!(exists(Path::new(absolute)));
    for path in [
        "/../secret.txt",
        "/%2e%2e/secret.txt",
        "/%2E%2E%2Fsecret.txt",
        "/..%2fsecret.txt",
        "/..%5csecret.txt",
        "/in%20it/../../secret.txt",
        "/in%20it/%2e%2e/%2e%2e/secret.txt",
        "/./../secret.txt",
        "/....//secret.txt",
        "/..;/secret.txt",
        "/%c0%ae%c0%ae/secret.txt",
        "/%252e%252e/secret.txt",
        "/..%00/secret.txt",
        "/secret.txt",
        "//secret.txt",
        &format!("/{absolute}"),
        absolute,
        "/.leadpipe/t.json",
        "/%2eleadpipe/t.json",
        "/in%20it/.hidden/a.txt",
        "/in%20it/%2ehidden/a.txt",
        "/in%20it/.hidden/",
        "/a%201.mp3/",
        "/a%201.mp3/../../secret.txt",
        "/../shared/a%201.mp3",
    ] {
        let answer = shared.get(path);
        assert_eq!(answer.status, 404, "{path}");
        assert!(!answer.text().contains("secret"), "{path}");
    }
}

#[test]
fn other_forms_of_a_request_lead_out_no_more() {
    let shared = Shared::new();
    for first in [
        "GET http://127.0.0.1/../secret.txt HTTP/1.1",
        "GET file:///etc/passwd HTTP/1.1",
        "GET ../secret.txt HTTP/1.1",
        "GET * HTTP/1.1",
    ] {
        let answer = shared.raw(format!(
            "{first}\r\nHost: localhost\r\nConnection: close\r\n\r\n"
        ));
        assert!([400, 404].contains(&answer.status), "{first}: {answer:?}");
    }
    let query = shared.get("/a%201.mp3?x=../../secret.txt");
    assert_eq!((query.status, query.text()), (200, "0123456789"));
}

#[cfg(unix)]
#[test]
fn links_out_of_the_folder_and_to_what_is_hidden_are_not_followed() {
    use std::os::unix::fs::symlink;
    let shared = Shared::new();
    let folder = shared.folder();
    for (target, name) in [
        ("../secret.txt", "relative.txt"),
        ("/etc/passwd", "absolute.txt"),
        ("..", "up"),
        ("/", "everything"),
        (".leadpipe/t.json", "hidden.txt"),
        ("loop.txt", "loop.txt"),
        ("in it/../../secret.txt", "winding.txt"),
    ] {
        symlink(target, folder.join(name)).unwrap();
    }
    for path in [
        "/relative.txt",
        "/absolute.txt",
        "/up/",
        "/up",
        "/up/secret.txt",
        "/everything/etc/passwd",
        "/hidden.txt",
        "/loop.txt",
        "/winding.txt",
    ] {
        let answer = shared.get(path);
        assert_eq!(answer.status, 404, "{path}");
    }
    // Within the folder a link leads where it says.
    symlink("a 1.mp3", folder.join("inside.mp3")).unwrap();
    assert_eq!(shared.get("/inside.mp3").text(), "0123456789");
}

/// Opening a pipe would wait for somebody to write to it.
#[cfg(unix)]
#[test]
fn what_is_no_file_is_not_opened() {
    let shared = Shared::new();
    let pipe = shared.folder().join("pipe.mp3");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status();
    assert!(made.unwrap().success());
    assert_eq!(shared.get("/pipe.mp3").status, 404);
}

#[test]
fn a_folder_without_a_slash_is_sent_to_the_one_with_it_and_nowhere_else() {
    let shared = Shared::new();
    let answer = shared.get("/in%20it");
    assert_eq!(
        (answer.status, answer.field("location")),
        (308, "./in%20it/")
    );
    for path in [
        "//in%20it",
        "/%2f/in%20it",
        "//example.org",
        "/\\example.org",
    ] {
        let status = shared.get(path).status;
        assert!([400, 404].contains(&status), "{path}: {status}");
    }
}
