"""The pictures beside the cloth: close-up, garment, worn."""
