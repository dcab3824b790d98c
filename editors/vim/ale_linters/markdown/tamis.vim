" For ALE: the manuscripts in the fences of a post.

call tamis#Define('markdown')
