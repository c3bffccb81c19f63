//! Short lists in order.

/// Sorts by a number that is not NaN, smallest first; equals stay as they were.
///
/// By insertion, for lists of some dozen entries: the standard sort is made for millions, and takes four kilobytes of code
/// for every type it is used on.
pub(crate) fn sort_by_number<T>(list: &mut [T], number: impl Fn(&T) -> f64) {
    for unsorted in 1..list.len() {
        let mut i = unsorted;
        while i > 0 && number(&list[i]) < number(&list[i - 1]) {
            list.swap(i, i - 1);
            i -= 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equals_stay_as_they_were() {
        let mut list = [(2, 'a'), (1, 'b'), (2, 'c'), (0, 'd'), (1, 'e')];
        sort_by_number(&mut list, |entry| f64::from(entry.0));
        assert_eq!(list.map(|entry| entry.1), ['d', 'b', 'e', 'a', 'c']);
    }
}
