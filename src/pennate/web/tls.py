"""HTTPS at home: an authority of this machine's own, and a certificate for its addresses.

The authority's key never leaves the data folder. The phone takes the authority's
certificate once; server certificates are renewed under it without asking again.
"""

from __future__ import annotations

import os
import re
import socket
import ssl
from dataclasses import dataclass
from datetime import datetime, timedelta
from ipaddress import ip_address
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from pennate.errors import InputError

FOLDER = "tls"
AUTHORITY_DAYS = 3650
SERVER_DAYS = 397
"""Longer ones are refused by phones."""
RENEW_DAYS = 30


@dataclass(frozen=True, slots=True)
class Certified:
    """Files a server needs, and the authority's certificate for the phone."""

    certificate: Path
    key: Path
    authority: Path | None = None


def brought(certificate: Path, key: Path) -> Certified:
    """A certificate of the user's own; InputError where it cannot be used with its key."""
    try:
        ssl.create_default_context(ssl.Purpose.CLIENT_AUTH).load_cert_chain(certificate, key)
    except OSError as error:  # what the library says of a wrong file is one, too
        raise InputError(
            f"{certificate} with {key} cannot be used: {error.strerror or error}",
            remedy="give a certificate and its key as PEM files without a passphrase",
        ) from None
    return Certified(certificate, key)


def local_name() -> str:
    """The name this machine has on its own network, which outlives its address.

    Letters, digits and hyphens only, as names of hosts are (RFC 1123, section 2.1).
    """
    own = re.sub("[^a-z0-9]+", "-", socket.gethostname().split(".")[0].lower()).strip("-")
    return f"{own if own not in {'', 'localhost'} else 'pennate'}.local"


def certified(data: Path, addresses: tuple[str, ...], now: datetime) -> Certified:
    """A certificate for these names and addresses; made or renewed where it must be."""
    folder = data / FOLDER
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    authority = folder / "authority.pem"
    found = Certified(folder / "server.pem", folder / "server.key", authority)
    if not authority.exists():
        _make_authority(folder, now)
    if not _still_good(found, addresses, now):
        _make_server(folder, addresses, now)
    return found


def _still_good(found: Certified, addresses: tuple[str, ...], now: datetime) -> bool:
    if not (found.certificate.exists() and found.key.exists()):
        return False
    certificate = x509.load_pem_x509_certificate(found.certificate.read_bytes())
    names = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    held = {str(one.value) for one in names}
    late = certificate.not_valid_after_utc - now < timedelta(days=RENEW_DAYS)
    return set(addresses) <= held and not late


def _name(words: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, words)])


def _make_authority(folder: Path, now: datetime) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    name = _name(f"pennate on {socket.gethostname()[:40]}")
    certificate = (
        _begun(name, name, key.public_key(), now, AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_key_use(signs=True), critical=True)
        .sign(key, hashes.SHA256())
    )
    _write(folder / "authority.key", _private(key))
    _write(folder / "authority.pem", certificate.public_bytes(serialization.Encoding.PEM))


def _make_server(folder: Path, addresses: tuple[str, ...], now: datetime) -> None:
    authority = x509.load_pem_x509_certificate((folder / "authority.pem").read_bytes())
    signer = serialization.load_pem_private_key((folder / "authority.key").read_bytes(), None)
    if not isinstance(signer, ec.EllipticCurvePrivateKey):
        raise TypeError("the authority's key is of another kind")
    key = ec.generate_private_key(ec.SECP256R1())
    certificate = (
        _begun(_name(addresses[0]), authority.subject, key.public_key(), now, SERVER_DAYS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_key_use(signs=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName([_alt(a) for a in addresses]), critical=False)
        .sign(signer, hashes.SHA256())
    )
    _write(folder / "server.key", _private(key))
    _write(folder / "server.pem", certificate.public_bytes(serialization.Encoding.PEM))


def _begun(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, now: datetime, days: int
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(days=1))
        .not_valid_after(now + timedelta(days=days))
    )


def _key_use(*, signs: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs,
        key_cert_sign=signs,
        crl_sign=signs,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )


def _alt(address: str) -> x509.GeneralName:
    try:
        return x509.IPAddress(ip_address(address))
    except ValueError:
        return x509.DNSName(address)


def _private(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    )


def _write(path: Path, content: bytes) -> None:
    """Write a file only its owner can read, whole or not at all."""
    part = path.with_suffix(".part")
    descriptor = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
    with os.fdopen(descriptor, "wb") as file:
        file.write(content)
    part.replace(path)
