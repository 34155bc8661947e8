"""The site taken along: kept on a device, or as one archive for a workshop without a line."""
