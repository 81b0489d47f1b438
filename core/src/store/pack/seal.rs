//! Encryption of a pack by a passphrase (age-encryption.org/v1, recipient `scrypt`).

use super::PackFault;
use age::secrecy::SecretString;
use age::{DecryptError, scrypt};

/// What every such file begins with. Source: the format's own description, age-encryption.org/v1.
const BEGINNING: &[u8] = b"age-encryption.org/v1\n";

/// Greatest work factor that is opened: 2^20 takes a few seconds and 1 GiB, and no program writes more by itself.
const MOST_WORK: u8 = 20;

/// True for the beginning of a file that only a passphrase opens.
#[must_use]
pub fn is_sealed(bytes: &[u8]) -> bool {
    bytes.starts_with(BEGINNING)
}

pub(super) fn seal(bytes: &[u8], passphrase: &str) -> Result<Vec<u8>, String> {
    let recipient = scrypt::Recipient::new(SecretString::from(passphrase.to_owned()));
    age::encrypt(&recipient, bytes).map_err(|error| error.to_string())
}

pub(super) fn open(bytes: &[u8], passphrase: Option<&str>) -> Result<Vec<u8>, PackFault> {
    let passphrase = passphrase.ok_or(PackFault::Passphrase)?;
    let mut identity = scrypt::Identity::new(SecretString::from(passphrase.to_owned()));
    identity.set_max_work_factor(MOST_WORK);
    age::decrypt(&identity, bytes).map_err(|error| match error {
        DecryptError::InvalidHeader | DecryptError::UnknownFormat => PackFault::NotAPack,
        _ => PackFault::Passphrase,
    })
}
