//! Held against RFC 8032, section 7.1: test vectors of Ed25519.

use ed25519_dalek::{Signer as _, SigningKey};
use seal::{PublicKey, SecretKey};

fn bytes(hex: &str) -> Vec<u8> {
    (0..hex.len()).step_by(2).map(|i| u8::from_str_radix(&hex[i..i + 2], 16).expect("hexadecimal")).collect()
}

/// RFC 8032, 7.1, test 3.
#[test]
fn public_key_and_signature_are_those_of_the_standard() {
    let secret = "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7";
    let public = "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025";
    let signature = "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a";
    let secret: [u8; 32] = bytes(secret).try_into().expect("32 bytes");
    assert_eq!(SecretKey::from_bytes(&secret).public().to_string(), public);
    let signed = SigningKey::from_bytes(&secret).sign(&[0xaf, 0x82]);
    assert_eq!(signed.to_bytes().to_vec(), bytes(signature));
    assert!(PublicKey::read(public).is_ok());
}
