//! What several test programs share.
