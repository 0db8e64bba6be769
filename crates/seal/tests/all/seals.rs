//! Seals: what fits, and what one changed byte does.

use proptest::prelude::*;
use seal::{PublicKey, Seal, SealFault, SecretKey, Statement};
use survey::{Digest, SurveyId};

fn statement(file: &[u8]) -> Statement {
    let day = jiff::civil::date(2026, 6, 4);
    Statement::of(file, SurveyId::from_bits(7), 2, day, "A. Surveyor", Digest::of(b"the field book"))
}

#[test]
fn a_seal_travels_as_text_and_fits_the_file_it_was_made_for() {
    let key = SecretKey::from_bytes(&[3; 32]);
    let seal = Seal::made(statement(b"a report"), &key).expect("it is signed");
    let read = Seal::read(&seal.text()).expect("it reads back");
    assert_eq!(read, seal);
    let public = PublicKey::read(&key.public().text("A. Surveyor")).expect("the public key reads back");
    assert_eq!(read.check(b"a report", &public), Ok(()));
    let again = SecretKey::read(&key.text()).expect("the secret key reads back");
    assert_eq!(again.public(), public);
}

#[test]
fn a_stranger_with_another_key_cannot_pass_for_the_surveyor() {
    let (key, other) = (SecretKey::from_bytes(&[3; 32]), SecretKey::from_bytes(&[4; 32]));
    // The forger signs with their own key and writes it into the seal.
    let forged = Seal::made(statement(b"a report"), &other).expect("it is signed");
    assert_eq!(forged.check(b"a report", &key.public()), Err(SealFault::NotByThisKey));
    let mut dressed = forged;
    dressed.public_key = key.public().to_string();
    assert_eq!(dressed.check(b"a report", &key.public()), Err(SealFault::NotByThisKey));
}

#[test]
fn what_is_no_key_no_name_or_no_seal_is_refused_in_a_sentence() {
    assert_eq!(PublicKey::read("# nothing\n").err(), Some(SealFault::NoKey));
    assert_eq!(PublicKey::read(&"zz".repeat(32)).err(), Some(SealFault::NoKey));
    let key = SecretKey::from_bytes(&[3; 32]);
    let mut nameless = statement(b"x");
    nameless.signed_by = "A\nsurvey 0".into();
    assert_eq!(Seal::made(nameless, &key).err(), Some(SealFault::Name));
    assert!(matches!(Seal::read("{}"), Err(SealFault::Shape(_))));
    let newer = Seal::made(statement(b"x"), &key).expect("signed").text().replace("\"form\": 1", "\"form\": 2");
    assert_eq!(Seal::read(&newer).err(), Some(SealFault::Form(2)));
}

#[test]
fn no_field_of_the_statement_can_be_changed() {
    let key = SecretKey::from_bytes(&[3; 32]);
    let seal = Seal::made(statement(b"a report"), &key).expect("signed");
    let changes: [fn(&mut Statement); 6] = [
        |s| s.survey = SurveyId::from_bits(8),
        |s| s.version = 3,
        |s| s.date = jiff::civil::date(2026, 6, 5),
        |s| s.signed_by = "B. Surveyor".into(),
        |s| s.field_book = Digest::of(b"another"),
        |s| s.bytes += 1,
    ];
    for change in changes {
        let mut other = seal.clone();
        change(&mut other.statement);
        assert_eq!(other.check_signature(&key.public()), Err(SealFault::NotByThisKey));
    }
}

proptest! {
    /// One changed bit anywhere in the file is found.
    #[test]
    fn one_changed_bit_of_the_file_is_found(mut file in prop::collection::vec(any::<u8>(), 1..400), at in any::<prop::sample::Index>(), bit in 0u8..8) {
        let key = SecretKey::from_bytes(&[9; 32]);
        let seal = Seal::made(statement(&file), &key).expect("signed");
        prop_assert_eq!(seal.check(&file, &key.public()), Ok(()));
        let at = at.index(file.len());
        file[at] ^= 1 << bit;
        let other = matches!(seal.check(&file, &key.public()), Err(SealFault::OtherFile { .. }));
        prop_assert!(other);
    }
}
