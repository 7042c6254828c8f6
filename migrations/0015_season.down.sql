DROP TABLE season_person, season_part, season;
