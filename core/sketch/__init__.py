"""Pictures of what is measured, apart from how they are shown: in cells or as SVG."""
