" For ALE: the language server of the recipe manuscripts.

call tamis#Define('tamis')
