package main

import (
	"fmt"
	"io"
	"log/slog"
	"os"
)

// startLog makes everything log to a place: as text where that is a terminal,
// as JSON anywhere else.
func startLog(to io.Writer, level string) error {
	options := &slog.HandlerOptions{}
	var least slog.Level
	if err := least.UnmarshalText([]byte(level)); err != nil {
		return fmt.Errorf("--%s %s: debug, info, warn or error was expected", settingLog.flag, level)
	}
	options.Level = least
	var handler slog.Handler = slog.NewJSONHandler(to, options)
	if isTerminal(to) {
		handler = slog.NewTextHandler(to, options)
	}
	slog.SetDefault(slog.New(handler))
	return nil
}

func isTerminal(w io.Writer) bool {
	file, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := file.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
