//! The last answer to a question, kept until another is asked.

/// One key and its value.
#[derive(Clone, Debug)]
pub struct Memo<K, V>(Option<(K, V)>);

impl<K, V> Default for Memo<K, V> {
    fn default() -> Self {
        Self(None)
    }
}

impl<K: PartialEq, V> Memo<K, V> {
    /// The value of `key`: the one at hand if the key is the same, else what `make` makes of it.
    pub fn get(&mut self, key: K, make: impl FnOnce(&K) -> V) -> &V {
        let kept = self.0.take().filter(|(known, _)| *known == key);
        let (_, value) = self.0.insert(kept.unwrap_or_else(|| {
            let value = make(&key);
            (key, value)
        }));
        value
    }
}
