//! (layer larder)
