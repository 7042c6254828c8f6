package api

import (
	"context"
	"fmt"
	"time"

	"halfpoint/db"
)

// readyTime bounds the question whether the database is there.
const readyTime = 2 * time.Second

// GetHealth says that the process answers.
func (s *server) GetHealth(context.Context, GetHealthRequestObject) (GetHealthResponseObject, error) {
	return GetHealth200JSONResponse{Status: Ok}, nil
}

// GetReadiness says whether the database is there too.
func (s *server) GetReadiness(ctx context.Context, _ GetReadinessRequestObject) (GetReadinessResponseObject, error) {
	ctx, cancel := context.WithTimeout(ctx, readyTime)
	defer cancel()
	if err := s.db.Ping(ctx); err != nil {
		return nil, fmt.Errorf("%w: %w", db.ErrUnavailable, err)
	}
	return GetReadiness200JSONResponse{Status: Ok}, nil
}
