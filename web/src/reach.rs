//! Who can open an address: a page served on one's own machine has links that work nowhere else, and nothing about them shows it.

/// Who can open an address.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// Whoever is on the internet, as far as the address tells.
    Anyone,
    /// Devices in the same network.
    Network,
    /// This device alone.
    Device,
}

/// Who can open `address`, by its scheme and host, as browsers write them: numbers of IPv4 with four decimal parts, of IPv6 in
/// brackets, all in small letters.
///
/// Loopback is 127.0.0.0/8 and ::1 (RFC 1122, 3.2.1.3; RFC 4291, 2.5.3) and the name localhost with all below it (RFC 6761, 6.3); private are
/// 10/8, 172.16/12, 192.168/16 (RFC 1918), 100.64/10 (RFC 6598) and fc00::/7 (RFC 4193); local to the link 169.254/16 (RFC 3927) and fe80::/10
/// (RFC 4291, 2.5.6); names in .local (RFC 6762) and home.arpa (RFC 8375), and such without a dot, are known within a network alone.
pub fn reach(address: &str) -> Reach {
    let rest = ["https://", "http://"].iter().find_map(|scheme| address.strip_prefix(scheme));
    let Some(rest) = rest else { return Reach::Device };
    let authority = rest.split(['/', '?', '#']).next().unwrap_or_default();
    let host = authority.rsplit('@').next().unwrap_or_default();
    if let Some(number) = host.strip_prefix('[') {
        return of_ipv6(number.split(']').next().unwrap_or_default());
    }
    let host = host.split(':').next().unwrap_or_default();
    let mut parts = [0_u8; 4];
    let mut numbers = host.split('.').map(str::parse::<u8>);
    let is_ipv4 = parts.iter_mut().all(|part| matches!(numbers.next(), Some(Ok(number)) if { *part = number; true }));
    if is_ipv4 && numbers.next().is_none() { of_ipv4(parts) } else { of_name(host.trim_end_matches('.')) }
}

const fn of_ipv4(parts: [u8; 4]) -> Reach {
    match parts {
        // 0.0.0.0 is how servers say "all of this machine's addresses".
        [0 | 127, ..] => Reach::Device,
        [10, ..] | [172, 16..=31, ..] | [192, 168, ..] | [169, 254, ..] | [100, 64..=127, ..] => Reach::Network,
        _ => Reach::Anyone,
    }
}

fn of_ipv6(number: &str) -> Reach {
    let begins = |starts: &[&str]| starts.iter().any(|start| number.starts_with(start));
    match number {
        "::1" | "::" => Reach::Device,
        // The first group has four digits only where it begins with another than 0.
        _ if number.split(':').next().is_some_and(|group| group.len() == 4)
            && begins(&["fc", "fd", "fe8", "fe9", "fea", "feb"]) =>
        {
            Reach::Network
        }
        _ => Reach::Anyone,
    }
}

fn of_name(host: &str) -> Reach {
    let is_below = |domain: &str| host.strip_suffix(domain).is_some_and(|rest| rest.is_empty() || rest.ends_with('.'));
    if host.is_empty() || is_below("localhost") {
        Reach::Device
    } else if !host.contains('.') || is_below("local") || is_below("home.arpa") {
        Reach::Network
    } else {
        Reach::Anyone
    }
}

#[cfg(all(test, not(target_arch = "wasm32")))]
mod tests {
    use std::net::{IpAddr, Ipv4Addr, Ipv6Addr};

    use proptest::prelude::*;

    use super::*;

    #[test]
    fn names_and_schemes_tell_who_can_open_them() {
        for (address, who) in [
            ("https://box.example/#v1.e30.a3b4c5d6", Reach::Anyone),
            ("https://box.example:8443/a/?b#c", Reach::Anyone),
            ("https://localhost.example/", Reach::Anyone),
            ("https://notlocal/", Reach::Network),
            ("http://localhost:8080/#v1.e30", Reach::Device),
            ("http://box.localhost/", Reach::Device),
            ("http://localhost.", Reach::Device),
            ("http://someone@localhost:1/", Reach::Device),
            ("http://workshop-pc:8080/", Reach::Network),
            ("http://workshop-pc.local/", Reach::Network),
            ("http://box.home.arpa/", Reach::Network),
            ("http://10.example/", Reach::Anyone),
            ("http://127.0.0.1:8080/#v1.e30", Reach::Device),
            ("http://[::1]:8080/", Reach::Device),
            ("file:///box/index.html#v1.e30", Reach::Device),
            ("about:blank", Reach::Device),
            ("", Reach::Device),
        ] {
            assert_eq!(reach(address), who, "{address}");
        }
    }

    /// What the standard library knows of the registries of addresses; 100.64/10 it does not tell.
    fn by_the_library(number: IpAddr) -> Reach {
        let is_device = match number {
            IpAddr::V4(v4) => v4.is_loopback() || v4.octets()[0] == 0,
            IpAddr::V6(v6) => v6.is_loopback() || v6.is_unspecified(),
        };
        let is_network = match number {
            IpAddr::V4(v4) => {
                v4.is_private()
                    || v4.is_link_local()
                    || Ipv4Addr::from(u32::from(v4) & 0xffc0_0000) == Ipv4Addr::new(100, 64, 0, 0)
            }
            IpAddr::V6(v6) => v6.is_unique_local() || v6.is_unicast_link_local(),
        };
        if is_device {
            Reach::Device
        } else if is_network {
            Reach::Network
        } else {
            Reach::Anyone
        }
    }

    proptest! {
        /// Against the standard library, most of all at the ends of the ranges.
        #[test]
        fn numbers_tell_who_can_open_them(
            start in prop::sample::select(vec![0x0a00_0000_u32, 0x7f00_0000, 0xa9fe_0000, 0xac10_0000, 0xac20_0000, 0xc0a8_0000, 0x6440_0000, 0x6480_0000, 0]),
            off in -70_000_i64..70_000, anywhere: u32, high in prop::sample::select(vec![0xfc00_u16, 0xfdff, 0xfe80, 0xfebf, 0xfec0, 0xfbff, 0x2001, 0xfc, 0xfe8, 0]),
            low: u16,
        ) {
            let near = u32::try_from((i64::from(start) + off).rem_euclid(1 << 32)).unwrap();
            for number in [near, anywhere].map(Ipv4Addr::from) {
                prop_assert_eq!(reach(&format!("http://{number}:8080/#a")), by_the_library(number.into()), "{}", number);
            }
            let number = Ipv6Addr::new(high, 0, 0, 0, 0, 0, 0, low);
            prop_assert_eq!(reach(&format!("http://[{number}]:8080/#a")), by_the_library(number.into()), "{}", number);
        }
    }
}
