//! Parts that a practitioner knows, which build chains.
