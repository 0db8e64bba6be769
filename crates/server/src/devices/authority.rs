//! The machine's own certificate authority, for a yard without internet: devices that trust it reach this machine over
//! HTTPS, and it can vouch for nothing else.

use super::name::LocalName;
use jiff::{Span, ToSpan as _};
use rcgen::{
    BasicConstraints, CertificateParams, CidrSubnet, DnType, ExtendedKeyUsagePurpose, GeneralSubtree, IsCa, Issuer,
    KeyPair, KeyUsagePurpose, NameConstraints, SanType, date_time_ymd,
};
use std::fs;
use std::io;
use std::path::Path;
use store::secret_file;
use survey::Digest;

/// How long devices trust the authority.
const YEARS: i32 = 10;
/// How long a certificate of this machine holds; Apple's systems take none of 825 days or more.
const LEAF_DAYS: i32 = 390;

/// An authority whose certificate allows it one name (RFC 5280, section 4.2.1.10), so that nobody who trusts it can be
/// deceived about any other, even with its key.
pub struct Authority {
    name: LocalName,
    key: KeyPair,
    certificate: Vec<u8>,
}

/// A certificate of this machine and its key, both in DER.
pub struct Leaf {
    /// The certificate.
    pub certificate: Vec<u8>,
    /// The private key, PKCS #8.
    pub key: Vec<u8>,
}

impl Authority {
    /// Returns the authority for a name whose key and certificate are kept in a folder, making it the first time.
    ///
    /// # Errors
    /// What the system says of the files; [`io::ErrorKind::InvalidData`] when they hold neither key nor certificate.
    pub fn kept_in(folder: &Path, name: &LocalName) -> io::Result<Self> {
        let (key_file, certificate_file) = (folder.join("authority.key"), folder.join("authority.crt"));
        if key_file.exists() {
            let key = KeyPair::from_pem(&secret_file::read(&key_file)?).map_err(no_certificate)?;
            let certificate = fs::read(&certificate_file)?;
            return Ok(Self { name: name.clone(), key, certificate });
        }
        fs::create_dir_all(folder)?;
        let key = KeyPair::generate().map_err(no_certificate)?;
        let certificate = params_of(name)?.self_signed(&key).map_err(no_certificate)?.der().to_vec();
        // The key last: what is found with a key is whole.
        fs::write(&certificate_file, &certificate)?;
        secret_file::write(&key_file, key.serialize_pem().as_bytes())?;
        Ok(Self { name: name.clone(), key, certificate })
    }

    /// Returns its certificate in DER, for devices to trust.
    pub fn certificate(&self) -> &[u8] {
        &self.certificate
    }

    /// Returns the SHA-256 of its certificate, by which people compare it, in pairs of digits.
    pub fn fingerprint(&self) -> String {
        let digits = Digest::of(&self.certificate).to_string().to_ascii_uppercase();
        let pairs: Vec<&str> = digits.as_bytes().chunks(2).filter_map(|pair| str::from_utf8(pair).ok()).collect();
        pairs.join(" ")
    }

    /// Makes a certificate for this machine, with a key of its own.
    ///
    /// # Errors
    /// [`io::ErrorKind::InvalidData`] when the name cannot stand in a certificate.
    pub fn leaf(&self) -> io::Result<Leaf> {
        let key = KeyPair::generate().map_err(no_certificate)?;
        let mut params = CertificateParams::default();
        params.subject_alt_names = vec![match &self.name {
            LocalName::Name(name) => SanType::DnsName(name.as_str().try_into().map_err(no_certificate)?),
            LocalName::Address(address) => SanType::IpAddress((*address).into()),
        }];
        // No host name here: where one is looked for in this place, it is held against the constraints.
        params.distinguished_name.push(DnType::CommonName, "Ribband workbench");
        params.is_ca = IsCa::ExplicitNoCa;
        params.use_authority_key_identifier_extension = true;
        params.key_usages = vec![KeyUsagePurpose::DigitalSignature];
        params.extended_key_usages = vec![ExtendedKeyUsagePurpose::ServerAuth];
        holds_until(&mut params, LEAF_DAYS.days());
        let issuer = Issuer::new(params_of(&self.name)?, &self.key);
        let certificate = params.signed_by(&key, &issuer).map_err(no_certificate)?.der().to_vec();
        Ok(Leaf { certificate, key: key.serialize_der() })
    }
}

/// Returns what the authority's certificate says. All but the days follows from the name, so that certificates made
/// later name the same issuer.
fn params_of(name: &LocalName) -> io::Result<CertificateParams> {
    let mut params = CertificateParams::default();
    params.distinguished_name.push(DnType::CommonName, format!("Ribband on {name}"));
    params.is_ca = IsCa::Ca(BasicConstraints::Constrained(0));
    params.key_usages = vec![KeyUsagePurpose::KeyCertSign, KeyUsagePurpose::CrlSign];
    // A kind of name that is not spoken of is not constrained: addresses are excluded where a name is permitted.
    let every_v6 = GeneralSubtree::IpAddress(CidrSubnet::from_v6_prefix([0; 16], 0));
    params.name_constraints = Some(match name {
        LocalName::Name(name) => NameConstraints {
            permitted_subtrees: vec![GeneralSubtree::DnsName(name.clone())],
            excluded_subtrees: vec![GeneralSubtree::IpAddress(CidrSubnet::from_v4_prefix([0; 4], 0)), every_v6],
        },
        LocalName::Address(address) => NameConstraints {
            permitted_subtrees: vec![GeneralSubtree::IpAddress(CidrSubnet::from_v4_prefix(address.octets(), 32))],
            // The empty name holds every name (RFC 5280: any number of labels may be added to the left).
            excluded_subtrees: vec![GeneralSubtree::DnsName(String::new()), every_v6],
        },
    });
    holds_until(&mut params, YEARS.years());
    Ok(params)
}

/// Lets a certificate hold from yesterday on, for the clock of a phone may be behind, and for a span from today.
fn holds_until(params: &mut CertificateParams, span: Span) {
    let today = jiff::tz::Offset::UTC.to_datetime(jiff::Timestamp::now()).date();
    let at_midnight = |date: jiff::civil::Date| {
        date_time_ymd(i32::from(date.year()), date.month().unsigned_abs(), date.day().unsigned_abs())
    };
    params.not_before = at_midnight(today.saturating_sub(1.day()));
    params.not_after = at_midnight(today.saturating_add(span));
}

fn no_certificate(why: impl std::fmt::Display) -> io::Error {
    io::Error::new(io::ErrorKind::InvalidData, format!("no certificate is to be had ({why})"))
}
