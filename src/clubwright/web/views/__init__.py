"""What each page shows, as plain texts and pictures: made from the services, drawn by the templates."""
