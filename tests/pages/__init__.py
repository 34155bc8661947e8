"""The built pages: their HTML, how they can be reached and used, and what they say."""
