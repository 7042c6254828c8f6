package main

import (
	"fmt"
	"net"
	"net/netip"
	"net/url"
	"slices"
	"strings"
)

// readAddress reads the address that tablets reach, as it was set.
func readAddress(text string) (*url.URL, error) {
	if text == "" {
		return nil, nil //nolint:nilnil // none was set, and that is no error
	}
	u, err := url.Parse(text)
	if err != nil || u.Scheme != "https" || u.Host == "" || strings.Trim(u.Path, "/") != "" {
		return nil, fmt.Errorf("--%s %s: an address such as https://contest.example.org was expected; tablets need HTTPS", settingAddress.flag, text)
	}
	return &url.URL{Scheme: u.Scheme, Host: u.Host}, nil
}

// address is where others reach what this machine reaches at a URL.
func (c *config) address(local string) string {
	if all := c.addresses(local); len(all) > 0 {
		return all[0]
	}
	return local
}

// addresses are where tablets reach what this machine reaches at a URL, the
// best first: what was set, the names that are served, else the addresses of the
// machine in a private network. There is none without HTTPS, over which alone
// they pair, and none where the service has no name and listens to its own
// machine.
func (c *config) addresses(local string) []string {
	if c.reached != nil {
		return []string{c.reached.String()}
	}
	u, err := url.Parse(local)
	if err != nil || !c.isSecure() {
		return nil
	}
	hosts := c.hosts
	if len(hosts) == 0 {
		hosts = c.listened()
	}
	list := make([]string, len(hosts))
	for i, host := range hosts {
		at := *u
		at.Host = hostAt(host, u.Port())
		list[i] = at.String()
	}
	return list
}

// hostAt writes a host with its port, where that is not the one of HTTPS.
func hostAt(host, port string) string {
	switch {
	case port != "443" && port != "":
		return net.JoinHostPort(host, port)
	case strings.Contains(host, ":"):
		return "[" + host + "]"
	}
	return host
}

// listened are the addresses that the service listens to for others: the one
// that is set, or all of the machine's in private networks.
func (c *config) listened() []string {
	host, _, err := net.SplitHostPort(c.listen)
	if err != nil || host == "localhost" {
		return nil
	}
	ip, err := netip.ParseAddr(host)
	switch {
	case err == nil && ip.IsLoopback():
		return nil
	case host != "" && (err != nil || !ip.IsUnspecified()):
		return []string{host}
	}
	found, err := net.InterfaceAddrs()
	if err != nil {
		return nil // whoever asks has to know
	}
	return privateOf(found)
}

// privateOf are the addresses of a machine in private networks (RFC 1918,
// RFC 4193), those of IPv4 first, which are easier to type.
func privateOf(found []net.Addr) (hosts []string) {
	var late []string
	for _, one := range found {
		n, ok := one.(*net.IPNet)
		switch {
		case !ok || !n.IP.IsPrivate():
		case n.IP.To4() != nil:
			hosts = append(hosts, n.IP.String())
		default:
			late = append(late, n.IP.String())
		}
	}
	return slices.Concat(hosts, late)
}
