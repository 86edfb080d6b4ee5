//! Serving to a classroom: the addresses at which others in the same network reach this machine, and a code that a phone reads.

use std::fmt::Write as _;
use std::io::IsTerminal as _;
use std::net::{IpAddr, Ipv4Addr, UdpSocket};

use anyhow::{Result, bail};
use qrcodegen::{QrCode, QrCodeEcc};

/// Addresses that are asked for: those set aside for documentation (RFC 5737) lead the way that everything else goes, those of
/// private networks (RFC 1918) find a network without a way out.
const ASKED_FOR: [Ipv4Addr; 4] =
    [Ipv4Addr::new(192, 0, 2, 1), Ipv4Addr::new(192, 168, 0, 1), Ipv4Addr::new(172, 16, 0, 1), Ipv4Addr::new(10, 0, 0, 1)];
/// A port for that; nothing is ever sent there. RFC 863: what arrives is thrown away.
const DISCARD: u16 = 9;
/// Modules that have to stay light round a code: ISO/IEC 18004 asks for 4.
const QUIET: i32 = 4;

/// This machine's addresses in its networks.
///
/// # Errors
/// When it is in none.
pub fn addresses() -> Result<Vec<Ipv4Addr>> {
    let mut found = Vec::new();
    for asked in ASKED_FOR {
        if let Some(own) = own_address(asked).filter(|own| !found.contains(own)) {
            found.push(own);
        }
    }
    if found.is_empty() {
        bail!(
            "this machine is in no network, so nobody else could open the page: connect it to the network that the phones are in, \
             or leave --lan out to serve the page on this machine alone"
        );
    }
    Ok(found)
}

/// The address that this machine would send from. Connecting a socket of this kind only chooses the way: no packet is sent.
fn own_address(to: Ipv4Addr) -> Option<Ipv4Addr> {
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    socket.connect((to, DISCARD)).ok()?;
    match socket.local_addr().ok()?.ip() {
        IpAddr::V4(own) if !own.is_loopback() && !own.is_unspecified() => Some(own),
        _ => None,
    }
}

/// What is said before the page is served at `addresses`; the code is that of the first.
pub fn announcement(addresses: &[Ipv4Addr], port: u16) -> String {
    let urls: Vec<String> = addresses.iter().map(|address| format!("http://{address}:{port}/")).collect();
    let mut text = format!("Phones and computers in the same network open\n\n  {}\n\n", urls.join("\n  or "));
    if std::io::stdout().is_terminal()
        && let Some(code) = urls.first().and_then(|url| code(url))
    {
        text.push_str(&coloured(&code));
        text.push('\n');
    }
    text.push_str(
        "Everybody in this network can open it; designs stay in each one's own browser. A firewall or a network that keeps its\n\
         guests apart may be in the way. Over plain http browsers withhold what they count as delicate: the page does not work\n\
         without this server, cannot be installed, does not hear through a microphone, and may not copy to the clipboard.\n\
         For these publish it with https (see README.md, \"Publishing it\").\n",
    );
    text
}

/// A QR code (ISO/IEC 18004) in rows of half blocks, each two modules high, with a light edge round it.
fn code(text: &str) -> Option<Vec<String>> {
    let code = QrCode::encode_text(text, QrCodeEcc::Medium).ok()?;
    let all = -QUIET..code.size() + QUIET;
    let cell = |x: i32, y: i32| match (code.get_module(x, y), code.get_module(x, y + 1)) {
        (true, true) => '█',
        (true, false) => '▀',
        (false, true) => '▄',
        (false, false) => ' ',
    };
    Some(all.clone().step_by(2).map(|y| all.clone().map(|x| cell(x, y)).collect()).collect())
}

/// The code in black on white, whatever the terminal's own colours are (ECMA-48, SGR 30 and 107).
fn coloured(code: &[String]) -> String {
    code.iter().fold(String::new(), |mut text, row| {
        let _ = writeln!(text, "\x1b[30;107m{row}\x1b[0m");
        text
    })
}

#[cfg(test)]
mod tests {
    use std::io::{Read, Write};
    use std::net::{TcpListener, TcpStream};

    use super::*;

    /// Read by another library than it was made by.
    #[test]
    fn the_code_is_read_as_the_address() {
        const PIXELS: usize = 4;
        let url = "http://192.168.1.23:8080/";
        let rows = code(url).expect("an address is short enough");
        let is_dark = |x: usize, y: usize| {
            let cell = rows[y / 2].chars().nth(x).expect("rows are of one length");
            cell == '█' || cell == if y.is_multiple_of(2) { '▀' } else { '▄' }
        };
        let (width, height) = (rows[0].chars().count(), 2 * rows.len());
        assert!((0..width).all(|x| (0..4).all(|y| !is_dark(x, y) && !is_dark(y, x))), "the edge is light");
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(width * PIXELS, height * PIXELS, |x, y| {
            if is_dark(x / PIXELS, y / PIXELS) { 0 } else { 255 }
        });
        let grids = image.detect_grids();
        assert_eq!(grids.len(), 1);
        assert_eq!(grids[0].decode().expect("a code that can be read").1, url);
    }

    #[test]
    fn all_addresses_and_what_does_not_work_are_told() {
        let text = announcement(&[Ipv4Addr::new(192, 168, 1, 23), Ipv4Addr::new(10, 0, 0, 7)], 8081);
        for part in ["http://192.168.1.23:8081/\n  or http://10.0.0.7:8081/", "Everybody", "microphone", "clipboard", "installed"]
        {
            assert!(text.contains(part), "{part}: {text}");
        }
    }

    /// Where this machine is in a network, what listens everywhere is reached at each address; where it is in none, that is said.
    #[test]
    fn each_address_reaches_this_machine() {
        match addresses() {
            Err(complaint) => assert!(complaint.to_string().contains("in no network"), "{complaint}"),
            Ok(addresses) => {
                let listener = TcpListener::bind((Ipv4Addr::UNSPECIFIED, 0)).expect("a free port");
                let port = listener.local_addr().expect("it has an address").port();
                for address in addresses {
                    assert!(!address.is_loopback());
                    let mut caller = TcpStream::connect((address, port)).expect("this machine answers");
                    let (mut called, _) = listener.accept().expect("a call");
                    called.write_all(b"box").expect("it can be answered");
                    drop(called);
                    let mut heard = String::new();
                    caller.read_to_string(&mut heard).expect("an answer");
                    assert_eq!(heard, "box", "{address}");
                }
            }
        }
    }
}
