import styles from './printed-pages.module.css';

/** Whole pages, each a picture as large as its paper. */
export function PrintedPages({ pages, paper }: { readonly pages: readonly string[]; readonly paper: 'A4' | 'Letter' }) {
  return (
    <>
      <style>{`@page { size: ${paper}; margin: 0; }`}</style>
      {pages.map((page) => (
        <img key={page} className={styles.page} data-paper={paper} src={page} alt="" />
      ))}
    </>
  );
}
