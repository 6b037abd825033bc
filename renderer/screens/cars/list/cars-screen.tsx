import { PageHeader } from '../../../components/layout/page-header.tsx';
export const CarsScreen = () => <PageHeader title="Cars" />;
