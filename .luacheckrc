std = "lua54"
include_files = { "**/*.lua" }
max_line_length = 100
-- What the host hands to the modules of the vocabulary, and nothing else. Declarations keep
-- the words of a key on its line.
files["stdlib"] = { read_globals = { "need" }, max_line_length = false }
