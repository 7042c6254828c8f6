# The browser part, then the server, then a small image with the binary alone.
FROM node:20-bookworm-slim AS web
WORKDIR /src/webui
COPY webui/package.json webui/package-lock.json webui/.npmrc ./
RUN npm ci --no-audit --no-fund
COPY api/openapi.yaml ../api/openapi.yaml
COPY docs/accuracy.md ../docs/accuracy.md
COPY webui ./
RUN npm run build

FROM golang:1.26-bookworm AS server
ENV GOTOOLCHAIN=auto
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
COPY --from=web /src/webui/dist webui/dist
RUN CGO_ENABLED=0 go build -tags nomsgpack -trimpath -o /halfpoint ./cmd/halfpoint

FROM debian:bookworm-slim
RUN apt-get update && apt-get install -y --no-install-recommends ca-certificates curl && rm -rf /var/lib/apt/lists/* \
    && useradd --system --home-dir /data --create-home halfpoint
COPY --from=server /halfpoint /usr/local/bin/halfpoint
USER halfpoint
WORKDIR /data
EXPOSE 8080
ENTRYPOINT ["halfpoint"]
CMD ["serve"]
