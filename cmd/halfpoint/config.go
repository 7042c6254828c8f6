package main

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"
)

// A setting is something about the service that whoever runs it decides. A
// flag goes before the environment, and that before the default.
type setting struct {
	flag  string // empty for a secret, which a list of processes would show
	env   string
	value string // the default
	about string
}

// The settings of the service, all of them; docs/configuration.md is made from
// them.
var (
	settingListen = setting{
		"listen", "HALFPOINT_LISTEN", "127.0.0.1:8080",
		"address and port to serve on; 0.0.0.0:8080 is every address of the machine",
	}
	settingDatabase = setting{
		"database", databaseVariable, "",
		"URL of the Postgres to use; without one the service runs a private Postgres in the data folder",
	}
	settingRead = setting{
		"read-database", "HALFPOINT_READ_DATABASE", "",
		"URL of a standby from which whoever is not signed in reads what is published, as long as it is at most 5 s behind",
	}
	settingData = setting{
		"data", dataVariable, defaultData,
		"folder for the private Postgres, the office's token and the key for publications",
	}
	settingHosts = setting{
		"host", "HALFPOINT_HOST", "",
		"host names that are served beside the machine's own addresses, separated by commas",
	}
	settingAddress = setting{
		"address", "HALFPOINT_ADDRESS", "",
		"HTTPS address that tablets and people reach, for links and QR codes, such as https://contest.example.org where another program speaks HTTPS for this one; without it it is found by the names and the machine's private addresses",
	}
	settingCert = setting{
		"tls-cert", "HALFPOINT_TLS_CERT", "",
		"file with the certificate chain; with --tls-key the service speaks HTTPS",
	}
	settingKey = setting{
		"tls-key", "HALFPOINT_TLS_KEY", "",
		"file with the certificate's private key",
	}
	settingTLSName = setting{
		"tls-name", "HALFPOINT_TLS_NAME", "",
		"name on the Internet for which a certificate is got by ACME, on port 443, and kept; accepts the terms of Let's Encrypt",
	}
	settingTLSOwn = setting{
		"tls-own", "HALFPOINT_TLS_OWN", "",
		"name on a field without the Internet, such as judging.home.arpa: the installation makes its own certificates, which tablets are told to trust at /trust",
	}
	settingKeyFile = setting{
		"key-file", "HALFPOINT_KEY_FILE", "",
		"file with the key that publications are signed with, made at the first start; without it signing-key.pem in the data folder",
	}
	settingPublications = setting{
		"publications-dir", "HALFPOINT_PUBLICATIONS_DIR", "",
		"folder where publications are kept too, best on another disk; without it publications in the data folder",
	}
	settingBackupEvery = setting{
		"backup-every", "HALFPOINT_BACKUP_EVERY", "",
		"how often a backup is written and checked, such as 10m; without it never",
	}
	settingBackups = setting{
		"backup-dir", "HALFPOINT_BACKUP_DIR", "",
		"folder for these backups, best on another disk; without it backups in the data folder",
	}
	settingPassphrase = setting{
		"", passphraseVariable, "",
		"passphrase that encrypts backups; without it they hold no keys",
	}
	settingLog = setting{
		"log", "HALFPOINT_LOG", "info",
		"what is logged: debug, info, warn or error",
	}
	settingToken = setting{
		"", "HALFPOINT_OFFICE_TOKEN", "",
		"the office's token, at least 20 characters; without it one is made at the first start and kept in office-token in the data folder",
	}
)

var settings = []setting{
	settingListen, settingDatabase, settingRead, settingData, settingHosts, settingAddress, settingCert, settingKey, settingTLSName, settingTLSOwn, settingKeyFile, settingPublications,
	settingBackupEvery, settingBackups, settingPassphrase, settingLog, settingToken,
}

// register gives a command the flags of all settings.
func register(cmd *cobra.Command) {
	for _, s := range settings {
		if s.flag != "" {
			cmd.Flags().String(s.flag, s.value, s.about+" ("+s.env+")")
		}
	}
}

// An environment looks up a variable; false where it is not set.
type environment func(name string) (string, bool)

// config is what was decided.
type config struct {
	listen, database, data string

	standby string // URL; empty for none

	hosts     []string
	reached   *url.URL // by tablets, as it was set; nil where it was not
	cert, key string

	tlsName, tlsOwn string

	log, token string

	keyFile, publications string
	backupEvery           time.Duration // 0 for never
	backupDir, passphrase string
}

// preset gives a command a default of its own for a setting that has a flag.
func preset(cmd *cobra.Command, s setting, value string) {
	flag := cmd.Flag(s.flag)
	flag.DefValue = value
	_ = flag.Value.Set(value) // any text is a value of a text flag
}

// A settingReader reads settings: of a command's flags, or else of the environment.
type settingReader struct {
	cmd *cobra.Command
	env environment
}

func (r settingReader) read(s setting) string {
	if s.flag != "" && r.cmd.Flags().Changed(s.flag) {
		return r.cmd.Flag(s.flag).Value.String()
	}
	if value, ok := r.env(s.env); ok && value != "" {
		return value
	}
	if s.flag != "" {
		return r.cmd.Flag(s.flag).Value.String() // the default, which may be the command's own
	}
	return s.value
}

// readConfig reads the settings of a command.
func readConfig(cmd *cobra.Command, env environment) (c *config, err error) {
	read := settingReader{cmd, env}.read
	c = &config{
		listen: read(settingListen), database: read(settingDatabase), data: read(settingData),
		standby: read(settingRead),
		cert:    read(settingCert), key: read(settingKey),
		tlsName: strings.ToLower(read(settingTLSName)), tlsOwn: strings.ToLower(read(settingTLSOwn)),
		log: read(settingLog), token: read(settingToken),
		keyFile: read(settingKeyFile), publications: read(settingPublications),
		backupDir: read(settingBackups), passphrase: read(settingPassphrase),
	}
	if c.reached, err = readAddress(read(settingAddress)); err != nil {
		return nil, err
	}
	if c.backupEvery, err = readInterval(settingBackupEvery, read(settingBackupEvery)); err != nil {
		return nil, err
	}
	c.addHosts(splitNames(read(settingHosts)))
	return c, c.check()
}

// addHosts adds the names that are served to those of the certificates and of the
// address that tablets reach.
func (c *config) addHosts(names []string) {
	all := append([]string{c.tlsName, c.tlsOwn}, names...)
	c.hosts = slices.DeleteFunc(all, func(name string) bool { return name == "" })
	if c.reached != nil && !slices.Contains(c.hosts, c.reached.Hostname()) {
		c.hosts = append(c.hosts, c.reached.Hostname())
	}
}

// leastInterval is how often something may happen by itself at most.
const leastInterval = time.Minute

func readInterval(s setting, text string) (time.Duration, error) {
	if text == "" {
		return 0, nil
	}
	interval, err := time.ParseDuration(text)
	if err != nil || interval < leastInterval {
		return 0, fmt.Errorf("--%s %s: a time of %v or more was expected, such as 10m", s.flag, text, leastInterval)
	}
	return interval, nil
}

// leastToken is how short a token of the operator's own may be.
const leastToken = 20

func (c *config) check() error {
	if (c.cert == "") != (c.key == "") {
		return fmt.Errorf("--%s and --%s go together", settingCert.flag, settingKey.flag)
	}
	if ways := slices.DeleteFunc([]string{c.cert, c.tlsName, c.tlsOwn}, func(way string) bool { return way == "" }); len(ways) > 1 {
		return fmt.Errorf("only one of --%s, --%s and --%s is possible", settingCert.flag, settingTLSName.flag, settingTLSOwn.flag)
	}
	if c.token != "" && len(c.token) < leastToken {
		return fmt.Errorf("%s has %d characters; it needs %d", settingToken.env, len(c.token), leastToken)
	}
	return nil
}

func splitNames(list string) []string {
	return strings.FieldsFunc(list, func(r rune) bool { return r == ',' || r == ' ' })
}
