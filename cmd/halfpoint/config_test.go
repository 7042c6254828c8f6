package main

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/spf13/cobra"
)

var update = flag.Bool("update", false, "write the golden files")

const configurationPage = "../../docs/configuration.md"

// TestConfigurationPage holds the page to the table of settings; -update writes
// it.
func TestConfigurationPage(t *testing.T) {
	want := writeConfiguration()
	if *update {
		if err := os.WriteFile(configurationPage, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(configurationPage)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Error("docs/configuration.md is not what the settings are: go test ./cmd/halfpoint -run ConfigurationPage -update")
	}
}

func writeConfiguration() string {
	var page strings.Builder
	page.WriteString(`# Configuration of the service

Each setting of ` + "`halfpoint serve`" + ` is a flag or a variable of the environment; the flag goes before.

| flag | environment | default | what it is |
| --- | --- | --- | --- |
`)
	for _, s := range settings {
		name, value := "", ""
		if s.flag != "" {
			name = "`--" + s.flag + "`"
		}
		if s.value != "" {
			value = "`" + s.value + "`"
		}
		fmt.Fprintf(&page, "| %s | `%s` | %s | %s |\n", name, s.env, value, s.about)
	}
	page.WriteString(`
Several processes that share a database share the key file too. [publications.md](publications.md) says what the key
signs, [backup.md](backup.md) how backups are kept and restored.

People sign in with an account, judges by a paired tablet. For programs there is the office's token
(` + "`Authorization: Bearer …`" + `): it may do what the owner of the server may. Beyond the machine itself nobody signs in
and no token is taken but over HTTPS. The log never has it: it says in which file it is.

A request for a host name that is not listed is refused; the machine's own addresses and localhost are always served.

Tablets work without a network only where the pages come over HTTPS. [tls.md](tls.md) says how that is had on a field
without the Internet.

Behind a proxy all requests seem to come from the proxy: they share one address's rate, of wrong passwords too, and
where it runs on the same machine, that it is reached over HTTPS only is the proxy's to see to.

` + "`/healthz`" + ` says that the process answers, ` + "`/readyz`" + ` that its database does too, ` + "`/metrics`" + ` is for Prometheus,
and ` + "`/api/v1/docs`" + ` is the contract.
`)
	return page.String()
}

func TestSettingsComeInOrder(t *testing.T) {
	for name, c := range map[string]struct {
		args []string
		env  map[string]string
		want string
	}{
		"default":                {nil, nil, "127.0.0.1:8080"},
		"environment":            {nil, map[string]string{"HALFPOINT_LISTEN": "10.0.0.1:80"}, "10.0.0.1:80"},
		"empty environment":      {nil, map[string]string{"HALFPOINT_LISTEN": ""}, "127.0.0.1:8080"},
		"flag above environment": {[]string{"--listen", "[::1]:81"}, map[string]string{"HALFPOINT_LISTEN": "10.0.0.1:80"}, "[::1]:81"},
	} {
		t.Run(name, func(t *testing.T) {
			got, err := configFrom(t, c.args, c.env)
			if err != nil || got.listen != c.want {
				t.Errorf("listens on %q, %v; want %q", got.listen, err, c.want)
			}
		})
	}
}

func TestBadSettingsAreRefused(t *testing.T) {
	for _, c := range []struct {
		args []string
		env  map[string]string
		want string
	}{
		{[]string{"--tls-cert", "x.pem"}, nil, "--tls-key"},
		{[]string{"--tls-own", "judging.test", "--tls-name", "contest.example"}, nil, "--tls-own"},
		{nil, map[string]string{"HALFPOINT_OFFICE_TOKEN": "short"}, "HALFPOINT_OFFICE_TOKEN"},
		{[]string{"--backup-every", "daily"}, nil, "--backup-every"},
		{[]string{"--backup-every", "1s"}, nil, "--backup-every"},
	} {
		if _, err := configFrom(t, c.args, c.env); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v %v: %v, which does not name %s", c.args, c.env, err, c.want)
		}
	}
}

func configFrom(t *testing.T, args []string, env map[string]string) (*config, error) {
	t.Helper()
	cmd := &cobra.Command{}
	register(cmd)
	if err := cmd.ParseFlags(args); err != nil {
		t.Fatal(err)
	}
	return readConfig(cmd, func(name string) (string, bool) {
		value, ok := env[name]
		return value, ok
	})
}
