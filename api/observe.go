package api

import (
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"runtime/debug"
	"strconv"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promhttp"

	"halfpoint/db"
)

// metrics are what /metrics tells.
type metrics struct {
	registry     *prometheus.Registry
	requests     *prometheus.CounterVec
	durations    *prometheus.HistogramVec
	streams      prometheus.Gauge
	computations *prometheus.HistogramVec
	records      *prometheus.CounterVec
}

func newMetrics(o Options) *metrics {
	m := &metrics{
		registry: prometheus.NewRegistry(),
		requests: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "halfpoint_requests_total", Help: "Requests answered, by operation of the contract and status.",
		}, []string{"operation", "status"}),
		durations: prometheus.NewHistogramVec(prometheus.HistogramOpts{
			Name: "halfpoint_request_seconds", Help: "Time to answer, streams left out.", Buckets: prometheus.DefBuckets,
		}, []string{"operation"}),
		streams: prometheus.NewGauge(prometheus.GaugeOpts{
			Name: "halfpoint_event_streams", Help: "Event streams open now.",
		}),
		computations: prometheus.NewHistogramVec(prometheus.HistogramOpts{
			Name: "halfpoint_computation_seconds", Help: "Time to read and compute live results.", Buckets: prometheus.DefBuckets,
		}, []string{"of"}),
		records: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "halfpoint_records_total", Help: "Records of the line received, by how they were answered: stored, repeat or refused.",
		}, []string{"answer"}),
	}
	m.registry.MustRegister(m.requests, m.durations, m.streams, m.computations, m.records, program(o.Signer.Program),
		&poolCollector{o.DB.Connections}, collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	if o.LastBackup != nil {
		m.registry.MustRegister(lastBackup(o.LastBackup))
	}
	return m
}

// program tells which version answers.
func program(name string) prometheus.Collector {
	return prometheus.NewGaugeFunc(prometheus.GaugeOpts{
		Name: "halfpoint_program", Help: "Always 1; the label names the program and its version.",
		ConstLabels: prometheus.Labels{"version": name},
	}, func() float64 { return 1 })
}

// lastBackup tells when the newest backup was begun, 0 where there is none.
func lastBackup(last func() time.Time) prometheus.Collector {
	return prometheus.NewGaugeFunc(prometheus.GaugeOpts{
		Name: "halfpoint_last_backup_timestamp_seconds", Help: "When the newest backup was begun; 0 where there is none.",
	}, func() float64 {
		if t := last(); !t.IsZero() {
			return float64(t.Unix())
		}
		return 0
	})
}

// A poolCollector tells of the connections to the database.
type poolCollector struct{ connections func() db.Connections }

var (
	poolConnections = prometheus.NewDesc("halfpoint_database_connections", "Connections to the database, by state; max is how many there may be.", []string{"state"}, nil)
	poolWaits       = prometheus.NewDesc("halfpoint_database_waits_total", "How often a connection had to be waited for.", nil, nil)
)

func (*poolCollector) Describe(to chan<- *prometheus.Desc) {
	to <- poolConnections
	to <- poolWaits
}

func (p *poolCollector) Collect(to chan<- prometheus.Metric) {
	c := p.connections()
	for state, n := range map[string]int{"busy": c.Open - c.Idle, "idle": c.Idle, "max": c.Most} {
		to <- prometheus.MustNewConstMetric(poolConnections, prometheus.GaugeValue, float64(n), state)
	}
	to <- prometheus.MustNewConstMetric(poolWaits, prometheus.CounterValue, float64(c.Waited))
}

func (m *metrics) handler() gin.HandlerFunc {
	return gin.WrapH(promhttp.HandlerFor(m.registry, promhttp.HandlerOpts{}))
}

// observe counts and times each request, and writes its line to the log: what
// was asked and how it ended, never what was sent or answered.
func (m *metrics) observe(c *gin.Context) {
	start := time.Now()
	c.Next()
	took, operation, status := time.Since(start), operationOf(c), c.Writer.Status()
	m.requests.WithLabelValues(operation, strconv.Itoa(status)).Inc()
	if limitOf(c).work > 0 {
		m.durations.WithLabelValues(operation).Observe(took.Seconds())
	}
	level := slog.LevelInfo
	if operation == "getHealth" || operation == "getReadiness" || operation == "other" {
		level = slog.LevelDebug
	}
	slog.Log(c, level, "request",
		"method", c.Request.Method, "path", c.Request.URL.Path, "operation", operation, "status", status,
		"bytes", max(c.Writer.Size(), 0), "ms", took.Milliseconds(), "from", hostOf(c.Request.RemoteAddr))
}

// rescue answers a panic as the fault of ours that it is.
func rescue(c *gin.Context) {
	defer func() {
		found := recover()
		if found == nil {
			return
		}
		if err, ok := found.(error); ok && errors.Is(err, http.ErrAbortHandler) {
			panic(found)
		}
		slog.ErrorContext(c, "panic", "operation", operationOf(c), "what", fmt.Sprint(found), "stack", string(debug.Stack()))
		refuse(c, fail(kindInternal, ""))
	}()
	c.Next()
}
