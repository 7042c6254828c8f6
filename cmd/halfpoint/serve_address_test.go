package main

import (
	"net"
	"slices"
	"testing"
)

func TestAddressesThatTabletsReach(t *testing.T) {
	t.Parallel()
	files := []string{"--tls-cert", "chain.pem", "--tls-key", "key.pem"}
	for _, test := range []struct {
		args []string
		want []string
	}{
		{[]string{"--tls-own", "judging.test", "--host", "other.test"}, []string{"https://judging.test:8443", "https://other.test:8443"}},
		{[]string{"--address", "https://contest.example/"}, []string{"https://contest.example"}},
		{[]string{"--listen", "0.0.0.0:8443"}, nil}, // tablets pair over HTTPS alone
		{slices.Concat(files, []string{"--listen", "127.0.0.1:8443"}), nil},
		{slices.Concat(files, []string{"--listen", "localhost:8443"}), nil},
		{slices.Concat(files, []string{"--listen", "10.1.2.3:8443"}), []string{"https://10.1.2.3:8443"}},
		{slices.Concat(files, []string{"--listen", "[fd00::1]:8443"}), []string{"https://[fd00::1]:8443"}},
	} {
		c, err := configFrom(t, test.args, nil)
		if err != nil {
			t.Fatal(err)
		}
		local := map[bool]string{true: "https://localhost:8443", false: "http://localhost:8443"}[c.isSecure()]
		if got := c.addresses(local); !slices.Equal(got, test.want) {
			t.Errorf("%v: tablets reach %v, want %v", test.args, got, test.want)
		}
	}
}

func TestAnAddressIsServed(t *testing.T) {
	t.Parallel()
	c, err := configFrom(t, []string{"--address", "https://contest.example:8443"}, nil)
	if err != nil || !slices.Contains(c.hosts, "contest.example") {
		t.Errorf("%v, %v: want contest.example among the names", c, err)
	}
	for _, wrong := range []string{"contest.example", "http://contest.example", "https://contest.example/line", "https://"} {
		if _, err := configFrom(t, []string{"--address", wrong}, nil); err == nil {
			t.Errorf("%s was taken", wrong)
		}
	}
}

// TestPrivateAddresses: RFC 1918 and RFC 4193 say which are private.
func TestPrivateAddresses(t *testing.T) {
	t.Parallel()
	var found []net.Addr
	for _, text := range []string{"127.0.0.1", "fd00::7", "198.51.100.4", "192.168.1.20", "fe80::1", "10.0.0.2"} {
		found = append(found, &net.IPNet{IP: net.ParseIP(text)})
	}
	want := []string{"192.168.1.20", "10.0.0.2", "fd00::7"}
	if got := privateOf(found); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
