//! Devices: who is let in, how, and what the others learn. The certificates are checked by another library than makes
//! them: rustls with webpki, which holds them against RFC 5280.

use crate::asking::{SURVEY, bytes, get, header, json_of, post, send, store};
use axum::Router;
use axum::body::Body;
use axum::http::request::Builder;
use axum::http::{Request, Response, StatusCode};
use http_body_util::BodyExt as _;
use rcgen::{CertificateParams, Issuer, KeyPair};
use rustls::client::WebPkiServerVerifier;
use rustls::client::danger::ServerCertVerifier as _;
use rustls::pki_types::{CertificateDer, ServerName, UnixTime};
use rustls::{ClientConfig, RootCertStore};
use serde_json::json;
use server::devices::{Devices, LocalName, Ports};
use server::{Asset, Assets, Setup, YardListeners};
use std::path::Path;
use std::sync::Arc;
use tempfile::TempDir;
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};
use tower::ServiceExt as _;

const NAME: &str = "shed.home.arpa";
const PORTS: Ports = Ports { workbench: 7341, hand_over: 7342 };
const APP: &[Asset] = &[Asset { path: "/index.html", plain: b"<title>app</title>", br: None, gz: None }];

struct Yard {
    folder: TempDir,
    desk: Router,
    gate: Router,
}

fn devices(folder: &Path, name: &str) -> Arc<Devices> {
    Arc::new(Devices::kept_in(folder, name.parse().expect("a local name"), PORTS).expect("it is kept"))
}

fn yard_with(assets: Assets, folder: TempDir) -> Yard {
    let setup = Setup { assets, devices: Some(devices(folder.path(), NAME)), ..Setup::default() };
    let (desk, gate) = server::routers(store(), setup);
    Yard { folder, desk, gate: gate.expect("devices are let in") }
}

fn yard() -> Yard {
    yard_with(Assets::new(APP), TempDir::new().expect("a folder"))
}

impl Yard {
    /// Asks as a device does, with what it shows.
    async fn ask(&self, request: Builder, cookie: Option<&str>, body: impl Into<Body>) -> Response<Body> {
        let request = request.header("host", format!("{NAME}:7341"));
        let request = match cookie {
            Some(cookie) => request.header("cookie", format!("other=1; {cookie}")),
            None => request,
        };
        self.gate.clone().oneshot(request.body(body.into()).expect("a request")).await.expect("an answer")
    }

    async fn invitation(&self) -> String {
        let said = json_of(post(&self.desk, "/api/devices/invitations", &json!({})).await).await;
        let address = said["address"].as_str().expect("an address");
        let token =
            address.strip_prefix("https://shed.home.arpa:7341/pair#").expect("the invitation is in the fragment");
        assert!(said["code"].as_str().is_some_and(|code| code.contains("<svg")), "{said}");
        token.to_owned()
    }

    async fn pair(&self, token: &str, name: &str) -> Response<Body> {
        let request = Request::post("/api/devices").header("content-type", "application/json");
        let request = request.header("origin", format!("https://{NAME}:7341"));
        self.ask(request, None, json!({"token": token, "name": name}).to_string()).await
    }

    /// Pairs a device; returns its identifier and its cookie.
    async fn paired(&self, name: &str) -> (String, String) {
        let answer = self.pair(&self.invitation().await, name).await;
        assert_eq!(answer.status(), StatusCode::OK);
        let cookie = header(answer.headers(), "set-cookie").split(';').next().expect("a cookie").to_owned();
        let id = json_of(answer).await["id"].as_str().expect("an identifier").to_owned();
        (id, cookie)
    }

    async fn read(&self, path: &str, cookie: Option<&str>) -> Response<Body> {
        self.ask(Request::get(path), cookie, Body::empty()).await
    }

    async fn turn_out(&self, id: &str) -> StatusCode {
        send(&self.desk, Request::delete(format!("/api/devices/{id}")), Body::empty()).await.status()
    }
}

#[tokio::test]
async fn an_invitation_lets_one_device_in_once() {
    let yard = yard();
    let token = yard.invitation().await;
    // A name that is not accepted does not use the invitation up.
    for name in ["", "  ", &"x".repeat(61), "a\u{7}b"] {
        assert_eq!(yard.pair(&token, name).await.status(), StatusCode::UNPROCESSABLE_ENTITY, "{name:?}");
    }
    let answer = yard.pair(&token, " My phone ").await;
    let cookie = header(answer.headers(), "set-cookie").to_owned();
    // RFC 6265bis: with this beginning, a cookie must be Secure, of the whole site, and of no domain but this host.
    assert!(cookie.starts_with("__Host-ribband-device="), "{cookie}");
    for part in ["; Secure", "; HttpOnly", "; SameSite=Strict", "; Path=/"] {
        assert!(cookie.contains(part), "{cookie}");
    }
    assert!(!cookie.contains("Domain"), "{cookie}");
    assert_eq!(json_of(answer).await["name"], "My phone");
    let shown = cookie.split(';').next();
    assert_eq!(yard.read("/api/surveys", shown).await.status(), StatusCode::OK);

    let again = yard.pair(&token, "Another").await;
    let never = yard.pair(&"0".repeat(64), "Another").await;
    assert_eq!((again.status(), never.status()), (StatusCode::FORBIDDEN, StatusCode::FORBIDDEN));
    assert_eq!(bytes(again).await, bytes(never).await, "used and unknown are answered alike");
    let list = json_of(get(&yard.desk, "/api/devices").await).await;
    assert_eq!(list["devices"].as_array().map(Vec::len), Some(1));
    assert_eq!(list["devices"][0]["name"], "My phone");
    assert!(list["devices"][0]["heard"].is_string(), "{list}");
    assert!(list["devices"][0].get("secret_sha256").is_none(), "{list}");
}

#[tokio::test]
async fn whoever_is_not_paired_learns_nothing() {
    let yard = yard();
    let (id, cookie) = yard.paired("My phone").await;
    assert_eq!(yard.turn_out(&id).await, StatusCode::NO_CONTENT);
    assert_eq!(yard.turn_out(&id).await, StatusCode::NOT_FOUND);
    let wrong = format!("__Host-ribband-device={}", "f".repeat(64));
    let description = json_of(get(&yard.desk, "/api/openapi.json").await).await;
    let paths = description["paths"].as_object().expect("paths").keys().cloned();
    let paths = paths.filter(|path| path != "/api/devices").chain(["/plain".to_owned(), "/issued/x".to_owned()]);
    let unknown = format!("/api/surveys/{}/state", uuid::Uuid::nil());
    let mut bodies = std::collections::BTreeSet::new();
    for path in paths.chain([unknown, "/api/devices".to_owned()]) {
        let path = path.replace("{survey}", &SURVEY.to_string());
        for shown in [None, Some(wrong.as_str()), Some(cookie.as_str()), Some("__Host-ribband-device=")] {
            let answer = yard.read(&path, shown).await;
            assert_eq!(answer.status(), StatusCode::UNAUTHORIZED, "{path} {shown:?}");
            bodies.insert(bytes(answer).await);
        }
        let written = yard.ask(Request::put(&*path), Some(&cookie), "{}").await;
        assert_eq!(written.status(), StatusCode::UNAUTHORIZED, "{path}");
    }
    assert_eq!(bodies.len(), 1, "all are answered alike");
    // The app itself holds nothing of any survey.
    for path in ["/", "/pair", "/survey/whichever"] {
        let page = yard.ask(Request::get(path).header("accept", "text/html"), None, Body::empty()).await;
        assert_eq!(page.status(), StatusCode::OK, "{path}");
        assert_eq!(bytes(page).await, b"<title>app</title>");
    }
    // Without an app the first page would list the surveys.
    let bare = yard_with(Assets::default(), TempDir::new().expect("a folder"));
    assert_eq!(bare.read("/", None).await.status(), StatusCode::UNAUTHORIZED);
}

#[tokio::test]
async fn a_device_works_but_does_not_manage() {
    let yard = yard();
    let (id, cookie) = yard.paired("My phone").await;
    let shown = cookie.clone();
    let cookie = Some(cookie.as_str());
    let state = yard.read(&format!("/api/surveys/{SURVEY}/state"), cookie).await;
    assert_eq!(state.status(), StatusCode::OK);
    let posts = ["/api/devices/invitations".to_owned(), format!("/api/surveys/{SURVEY}/report/issue")];
    for path in posts {
        let answer = yard.ask(Request::post(&path), cookie, "{}").await;
        assert_eq!(answer.status(), StatusCode::FORBIDDEN, "{path}");
    }
    assert_eq!(yard.read("/api/devices", cookie).await.status(), StatusCode::FORBIDDEN);
    let out = yard.ask(Request::delete(format!("/api/devices/{id}")), cookie, Body::empty()).await;
    assert_eq!(out.status(), StatusCode::FORBIDDEN);

    // Other sites, other names, and the right name without encryption.
    let path = format!("/api/surveys/{SURVEY}/entries");
    let own = |site: &str, origin: &str| {
        Request::post(&path)
            .header("content-type", "application/json")
            .header("sec-fetch-site", site)
            .header("origin", origin)
    };
    let empty = json!({"entries": []}).to_string();
    let good = yard.ask(own("same-origin", "https://shed.home.arpa:7341"), cookie, empty.clone()).await;
    assert_eq!(good.status(), StatusCode::OK);
    for (site, origin) in [
        ("cross-site", "https://elsewhere.example"),
        ("same-site", "https://other.home.arpa"),
        ("same-origin", "http://shed.home.arpa:7341"),
        ("same-origin", "https://shed.home.arpa:7342"),
    ] {
        let answer = yard.ask(own(site, origin), cookie, empty.clone()).await;
        assert_eq!(answer.status(), StatusCode::FORBIDDEN, "{site} {origin}");
    }
    for host in ["localhost:7341", "elsewhere.example", "192.168.1.20:7341", ""] {
        let request = Request::get("/api/surveys").header("host", host).header("cookie", &shown);
        let request = request.body(Body::empty()).expect("a request");
        let answer = yard.gate.clone().oneshot(request).await.expect("an answer");
        assert_eq!(answer.status(), StatusCode::FORBIDDEN, "{host}");
    }
}

#[tokio::test]
async fn what_a_device_listens_to_ends_when_it_is_turned_out() {
    let yard = yard();
    let (id, cookie) = yard.paired("My phone").await;
    let live = yard.read(&format!("/api/surveys/{SURVEY}/live"), Some(&cookie)).await;
    assert_eq!(live.status(), StatusCode::OK);
    let mut live = live.into_body();
    let greeted = live.frame().await.expect("it greets").expect("well");
    assert!(greeted.data_ref().is_some_and(|data| data.starts_with(b"event: cursor")), "{greeted:?}");
    assert_eq!(yard.turn_out(&id).await, StatusCode::NO_CONTENT);
    assert!(live.frame().await.is_none(), "it has ended");
}

#[tokio::test]
async fn the_list_outlives_the_server_and_holds_no_secret() {
    let first = yard();
    let (id, cookie) = first.paired("My phone").await;
    let file = first.folder.path().join("devices/paired.json");
    let kept = std::fs::read_to_string(&file).expect("it is kept");
    let secret = cookie.split_once('=').expect("a secret").1;
    assert!(kept.contains(&id) && !kept.contains(secret), "{kept}");
    #[cfg(unix)]
    for file in ["paired.json", "shed.home.arpa/authority.key"] {
        use std::os::unix::fs::PermissionsExt as _;
        let file = first.folder.path().join("devices").join(file);
        assert_eq!(std::fs::metadata(&file).expect("it is there").permissions().mode() & 0o777, 0o600, "{file:?}");
    }
    let fingerprint = json_of(get(&first.desk, "/api/devices").await).await["fingerprint"].clone();
    let again = yard_with(Assets::new(APP), first.folder);
    assert_eq!(again.read("/api/surveys", Some(&cookie)).await.status(), StatusCode::OK);
    assert_eq!(json_of(get(&again.desk, "/api/devices").await).await["fingerprint"], fingerprint);
    std::fs::write(&file, "[{]").expect("the test may");
    let spoilt = Devices::kept_in(again.folder.path(), NAME.parse().expect("a name"), PORTS);
    assert!(spoilt.is_err_and(|why| why.to_string().contains("paired.json")), "it says which file");
}

#[tokio::test]
async fn without_devices_there_is_nothing_to_ask() {
    let desk = crate::asking::fresh();
    for path in ["/api/devices", "/api/devices/x"] {
        assert!(get(&desk, path).await.status().is_client_error());
    }
    assert_eq!(post(&desk, "/api/devices/invitations", &json!({})).await.status(), StatusCode::NOT_FOUND);
    let (_, gate) = server::routers(store(), Setup::default());
    assert!(gate.is_none());
}

#[test]
fn names_are_local() {
    for good in
        ["shed.local", "Shed.Home.Arpa", "a-b.yard.home.arpa", "192.168.1.20", "10.0.0.3", "172.31.0.1", "127.0.0.1"]
    {
        assert!(good.parse::<LocalName>().is_ok(), "{good}");
    }
    // A public name is not ours to vouch for; RFC 1918 ends at 172.31.
    let long = format!("{}.local", "x".repeat(64));
    for bad in [
        "",
        "local",
        ".local",
        "-a.local",
        "shed",
        "bank.example",
        "shed.local.example",
        "a b.local",
        "8.8.8.8",
        "172.32.0.1",
        "::1",
        &long,
    ] {
        let why = bad.parse::<LocalName>().expect_err(bad).to_string();
        assert!(why.contains("accepted is"), "{why}");
    }
}

fn verifier(authority: &[u8]) -> Arc<WebPkiServerVerifier> {
    let mut roots = RootCertStore::empty();
    roots.add(CertificateDer::from(authority.to_vec())).expect("a root");
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    WebPkiServerVerifier::builder_with_provider(Arc::new(roots), provider).build().expect("a verifier")
}

#[test]
fn even_with_its_key_the_authority_vouches_for_one_name_alone() {
    for (own, others) in [
        (NAME, ["bank.example", "other.home.arpa", "192.168.1.20", "2001:db8::1"]),
        ("192.168.1.20", ["bank.example", "shed.home.arpa", "192.168.1.21", "2001:db8::1"]),
    ] {
        let folder = TempDir::new().expect("a folder");
        devices(folder.path(), own);
        let kept = |file: &str| std::fs::read(folder.path().join("devices").join(own).join(file)).expect("it is kept");
        let authority = kept("authority.crt");
        let key = KeyPair::from_pem(&String::from_utf8(kept("authority.key")).expect("text")).expect("a key");
        let mut named = CertificateParams::default();
        named.distinguished_name.push(rcgen::DnType::CommonName, format!("Ribband on {own}"));
        let issuer = Issuer::new(named, key);
        let vouched = |name: &str| {
            let mut leaf = CertificateParams::new([name.to_owned()]).expect("a name");
            leaf.distinguished_name = rcgen::DistinguishedName::new();
            let signed = leaf.signed_by(&KeyPair::generate().expect("a key"), &issuer).expect("signed");
            let name = ServerName::try_from(name.to_owned()).expect("a name");
            verifier(&authority).verify_server_cert(signed.der(), &[], &name, &[], UnixTime::now())
        };
        assert!(vouched(own).is_ok(), "{own}");
        for other in others {
            let why = vouched(other).expect_err(other);
            let rustls::Error::InvalidCertificate(rustls::CertificateError::Other(why)) = why else {
                panic!("{why:?}")
            };
            assert!(why.to_string().contains("NameConstraint"), "{own} {other}: {why}");
        }
    }
}

/// Asks over a socket and returns the whole answer.
async fn talk(socket: impl tokio::io::AsyncRead + tokio::io::AsyncWrite, path: &str, host: &str) -> String {
    tokio::pin!(socket);
    let request = format!("GET {path} HTTP/1.1\r\nHost: {host}\r\nAccept: text/html\r\nConnection: close\r\n\r\n");
    socket.write_all(request.as_bytes()).await.expect("asked");
    let mut answer = Vec::new();
    // A server may close without the farewell of TLS.
    let _ = socket.read_to_end(&mut answer).await;
    String::from_utf8_lossy(&answer).into_owned()
}

#[tokio::test]
async fn devices_that_trust_the_authority_reach_the_workbench_and_others_do_not() {
    let folder = TempDir::new().expect("a folder");
    let devices = devices(folder.path(), NAME);
    let free = || std::net::TcpListener::bind("127.0.0.1:0").expect("a port");
    let yard = YardListeners { workbench: free(), hand_over: free() };
    for socket in [&yard.workbench, &yard.hand_over] {
        socket.set_nonblocking(true).expect("the runtime asks for it");
    }
    let workbench = yard.workbench.local_addr().expect("an address");
    let hand_over = yard.hand_over.local_addr().expect("an address");
    let setup = Setup { assets: Assets::new(APP), devices: Some(devices), ..Setup::default() };
    let desk = tokio::net::TcpListener::bind("127.0.0.1:0").await.expect("a port");
    let (stop, stopped) = tokio::sync::oneshot::channel::<()>();
    let serving = tokio::spawn(server::serve_all(desk, Some(yard), store(), setup, async {
        let _ = stopped.await;
    }));

    // The page that hands it over says its fingerprint and holds nothing else.
    let plain = || async { tokio::net::TcpStream::connect(hand_over).await.expect("it listens") };
    let page = talk(plain().await, "/", "192.168.1.20:7342").await;
    assert!(page.starts_with("HTTP/1.1 200") && page.contains("content-security-policy: default-src 'none'"), "{page}");
    let authority = std::fs::read(folder.path().join("devices/shed.home.arpa/authority.crt")).expect("it is kept");
    let digest = survey::Digest::of(&authority).to_string().to_ascii_uppercase();
    assert!(page.replace(' ', "").contains(&digest), "the fingerprint is the SHA-256 of the certificate");
    let certificate = talk(plain().await, "/authority.crt", "192.168.1.20:7342").await;
    assert!(certificate.contains("content-type: application/x-x509-ca-cert"));
    assert!(talk(plain().await, "/api/surveys", "192.168.1.20:7342").await.starts_with("HTTP/1.1 404"));

    let connect = |roots: RootCertStore| async move {
        let provider = Arc::new(rustls::crypto::ring::default_provider());
        let config = ClientConfig::builder_with_provider(provider).with_safe_default_protocol_versions();
        let config = config.expect("versions").with_root_certificates(roots).with_no_client_auth();
        let socket = tokio::net::TcpStream::connect(workbench).await.expect("it listens");
        let name = ServerName::try_from(NAME).expect("a name");
        tokio_rustls::TlsConnector::from(Arc::new(config)).connect(name, socket).await
    };
    let mut roots = RootCertStore::empty();
    roots.add(CertificateDer::from(authority)).expect("a root");
    let trusted = connect(roots.clone()).await.expect("it is trusted");
    assert!(talk(trusted, "/", &format!("{NAME}:7341")).await.contains("<title>app</title>"));
    let trusted = connect(roots).await.expect("it is trusted");
    assert!(talk(trusted, "/api/surveys", &format!("{NAME}:7341")).await.starts_with("HTTP/1.1 401"));
    assert!(connect(RootCertStore::empty()).await.is_err(), "nobody else trusts it");

    stop.send(()).expect("it serves");
    serving.await.expect("it ends").expect("in good order");
}
